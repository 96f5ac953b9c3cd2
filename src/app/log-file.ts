/** Where log lines go. */
import { openSync } from 'node:fs';
import type { DestinationStream, Logger } from 'pino';
import { pino } from 'pino';
import { translate } from '../language/texts.ts';
import { StartFailed } from './start-failed.ts';

/** Opened here and not by the logger, which would report a bad path only once the chat has begun. */
function opened(file: string): number {
  try {
    return openSync(file, 'a');
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new StartFailed(translate('en', 'app:log-unwritable', { file, reason }));
  }
}

/** A log that adds to a file, or writes to standard output where none is named. Throws StartFailed. */
export function logTo(file: string | undefined): { log: Logger; destination: DestinationStream } {
  const destination = pino.destination({ fd: file === undefined ? 1 : opened(file), sync: false });
  return { log: pino({ base: null }, destination), destination };
}
