/** Rows as the dialogues see them: what is not there is left out, not null. */

export type Present<R> = { [K in keyof R as null extends R[K] ? never : K]: R[K] } & {
  [K in keyof R as null extends R[K] ? K : never]?: Exclude<R[K], null>;
};

/** The row without what is not there. */
export function present<R extends object>(row: R): Present<R> {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null)) as Present<R>;
}
