/** The client of the platform. */
import { Api } from 'grammy';

/** Where and as whom to call. */
export interface Account {
  token: string;
  /** Undefined for the platform itself; else a Bot API server of one's own. */
  apiRoot?: string | undefined;
}

/** A client whose calls fail after `requestMs`. It retries nothing: each caller knows best how to wait. */
export function clientOf({ token, apiRoot }: Account, requestMs: number): Api {
  return new Api(token, {
    timeoutSeconds: requestMs / 1000,
    ...(apiRoot === undefined ? {} : { apiRoot }),
  });
}
