/** Fetching a file that somebody sent. */
import { writeFile } from 'node:fs/promises';
import type { File } from 'grammy/types';
import type { Account } from './client.ts';
import { clientOf } from './client.ts';

const PLATFORM = 'https://api.telegram.org';
const TRIES = 3;

export interface Bounds {
  mostBytes: number;
  /** A file that does not come within this time has failed. */
  timeMs: number;
}

const USUAL_BOUNDS: Bounds = { mostBytes: 20_000_000, timeMs: 60_000 };

/** The body of a response, up to so many bytes. Rejects beyond that. */
async function bounded(response: Response, mostBytes: number): Promise<Buffer> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  for await (const chunk of response.body ?? []) {
    const bytes = chunk as Uint8Array;
    size += bytes.length;
    if (size > mostBytes) throw new Error('The file is larger than the platform said');
    chunks.push(bytes);
  }
  return Buffer.concat(chunks);
}

async function fetched(address: string, { mostBytes, timeMs }: Bounds): Promise<Buffer> {
  const response = await fetch(address, { signal: AbortSignal.timeout(timeMs), redirect: 'error' });
  if (!response.ok) throw new Error(`The platform answers the download with ${response.status}`);
  return bounded(response, mostBytes);
}

/**
 * Fetches a file that the platform has named. Rejects where it does not come after a few tries, or is larger than
 * allowed. Its errors hold no address: that has the token in it.
 */
export async function downloaded(
  { file_path: path }: File,
  { token, apiRoot = PLATFORM }: Account,
  bounds = USUAL_BOUNDS,
): Promise<Buffer> {
  if (path === undefined) throw new Error('The platform gives no path for this file');
  for (let tries = 1; ; tries += 1) {
    try {
      return await fetched(`${apiRoot}/file/bot${token}/${path}`, bounds);
    } catch (error) {
      if (tries === TRIES) throw error;
    }
  }
}

/** A function that puts a file of the platform, by its id, into a file here; see `downloaded`. */
export function downloader(account: Account, bounds: Bounds): (id: string, into: string) => Promise<void> {
  const api = clientOf(account, bounds.timeMs);
  return async (id, into) => writeFile(into, await downloaded(await api.getFile(id), account, bounds));
}
