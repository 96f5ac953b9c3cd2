/** Fetching a file that somebody sent. */
import type { File } from 'grammy/types';
import type { Account } from './client.ts';

const PLATFORM = 'https://api.telegram.org';
/** A file that does not come within this time has failed. */
const PATIENCE_MS = 60_000;
const TRIES = 3;

async function fetched(address: string): Promise<Uint8Array> {
  const response = await fetch(address, { signal: AbortSignal.timeout(PATIENCE_MS) });
  // Never the address itself: it holds the token.
  if (!response.ok) throw new Error(`The platform answers ${response.status} to the file`);
  return new Uint8Array(await response.arrayBuffer());
}

/** Fetches a file that the platform has named. Rejects where it does not come after a few tries. */
export async function downloaded(
  { file_path: path }: File,
  { token, apiRoot = PLATFORM }: Account,
): Promise<Uint8Array> {
  if (path === undefined) throw new Error('The platform names no path for the file');
  const address = `${apiRoot}/file/bot${token}/${path}`;
  for (let tries = 1; ; tries += 1) {
    try {
      return await fetched(address);
    } catch (error) {
      if (tries === TRIES) throw error;
    }
  }
}
