/** Fetching a file that somebody sent. */
import { writeFile } from 'node:fs/promises';
import type { Account } from './client.ts';
import { clientOf } from './client.ts';

const PLATFORM = 'https://api.telegram.org';

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

/**
 * A function that puts a file of the platform, by its id, into a file here. It rejects where the platform does not give
 * it, where it is larger than `mostBytes`, or after `timeMs`. Its errors hold no address: that has the token in it.
 */
export function downloader(
  account: Account,
  mostBytes: number,
  timeMs: number,
): (id: string, into: string) => Promise<void> {
  const api = clientOf(account, timeMs);
  const root = account.apiRoot ?? PLATFORM;
  return async (id, into) => {
    const { file_path: path } = await api.getFile(id);
    if (path === undefined) throw new Error('The platform gives no path for this file');
    const response = await fetch(`${root}/file/bot${account.token}/${path}`, {
      signal: AbortSignal.timeout(timeMs),
      redirect: 'error',
    });
    if (!response.ok) throw new Error(`The platform answers the download with ${response.status}`);
    await writeFile(into, await bounded(response, mostBytes));
  };
}
