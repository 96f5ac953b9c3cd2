/** The first outcome of a check is the normal one: the likeliest where nothing the check is about is wrong. */
import type { Rule } from './breach.ts';

export const normalFirst: Rule = ({ checks }) =>
  checks
    .filter(({ base }) => (base[0] ?? 0) < Math.max(0, ...base))
    .map(({ id, outcomes }) => ({
      path: `checks.${id}.base`,
      message: `"${outcomes[0] ?? ''}" comes first but is not the likeliest`,
      tip: 'Put the normal outcome first.',
    }));
