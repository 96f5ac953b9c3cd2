/** Callback data: `<version>:<message>:<choice>`, three small numbers or `more`. Far below the 64 bytes allowed. */
import { z } from 'zod';
import type { Press } from './ports.ts';

const number = z
  .string()
  .regex(/^\d{1,12}$/)
  .transform(Number);
const schema = z.tuple([number, number, z.union([z.literal('more'), number])]);

/** The callback data of a button. */
export function callbackData({ version, message, choice }: Press): string {
  return `${version}:${message}:${choice}`;
}

/** Reads callback data; undefined where it was not written here. */
export function pressOf(data: string): Press | undefined {
  const parsed = schema.safeParse(data.split(':'));
  if (!parsed.success) return undefined;
  const [version, message, choice] = parsed.data;
  return { version, message, choice };
}
