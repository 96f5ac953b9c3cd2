/** A reading of a gauge, as it is kept. */
import type { Quantity } from '../knowledge/ids.ts';

export interface Reading {
  quantity: Quantity;
  /** SI: pascal, or turns a minute. */
  value: number;
  /** As the person gave it, with its unit. */
  said: string;
  /** Taken just after a filter clean with everything working. */
  clean: boolean;
  at: number;
}
