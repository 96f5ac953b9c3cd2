/** What a failed call means for the one who made it. */
import { GrammyError, HttpError } from 'grammy';

export type Failure =
  /** Too many calls; `seconds` to wait. */
  | { kind: 'flood'; seconds: number }
  /** Another program polls with the same token, or a webhook is set. */
  | { kind: 'conflict' }
  /** The person blocked the bot, or it was put out of the group. */
  | { kind: 'blocked' }
  /** The token is wrong or was taken back. */
  | { kind: 'unauthorised' }
  /** The call is wrong and stays wrong. */
  | { kind: 'refused'; code: number; description: string }
  /** The platform or the network failed; later it may work. */
  | { kind: 'passing'; code: number | string | undefined };

const DEFAULT_FLOOD_SECONDS = 5;

/** The network's code of a failed call. Never its message: that quotes the address, and the address holds the token. */
function networkCode({ error }: HttpError): string | undefined {
  if (!(error instanceof Error)) return undefined;
  return 'code' in error ? String(error.code) : error.name;
}

/** Sorts an error of a call. Errors that come of no call are thrown on. */
export function failureOf(error: unknown): Failure {
  if (error instanceof HttpError) return { kind: 'passing', code: networkCode(error) };
  if (!(error instanceof GrammyError)) throw error;
  const { error_code: code, parameters, description } = error;
  if (code === 429) return { kind: 'flood', seconds: parameters.retry_after ?? DEFAULT_FLOOD_SECONDS };
  if (code === 409) return { kind: 'conflict' };
  if (code === 403) return { kind: 'blocked' };
  if (code === 401 || code === 404) return { kind: 'unauthorised' };
  if (code >= 500) return { kind: 'passing', code };
  return { kind: 'refused', code, description };
}

/** The same, for places where an unknown error is best taken as one that passes. */
export function anyFailureOf(error: unknown): Failure {
  try {
    return failureOf(error);
  } catch {
    return { kind: 'passing', code: undefined };
  }
}
