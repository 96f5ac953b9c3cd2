/** Links that lead to the bot. */
import type { FreshLink } from '../dialogues/record.ts';
import { LINK_PREFIX } from '../dialogues/company/link.ts';

/** 128 bit, as 22 characters of A–Z, a–z, 0–9, - and _: with the prefix well under the 64 that a link may carry. */
const SECRET_BYTES = 16;

export interface Links {
  /** A link not given to anybody before. */
  fresh(): FreshLink;
}

/**
 * Links to the bot of this user name; where it has none, the command that does what the link would.
 * @param randomBytes bytes that nobody can guess.
 */
export function linksTo(botName: () => string | undefined, randomBytes: (count: number) => Buffer): Links {
  return {
    fresh: () => {
      const payload = LINK_PREFIX + randomBytes(SECRET_BYTES).toString('base64url');
      const name = botName();
      const address = name === undefined ? `/start ${payload}` : `https://t.me/${name}?start=${payload}`;
      return { payload, address };
    },
  };
}
