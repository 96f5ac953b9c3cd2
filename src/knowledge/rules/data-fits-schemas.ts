/** Every piece of the trade's data has the shape that the schemas give. */
import type { z } from 'zod';
import { cautionSchema, checkSchema, complaintSchema, deeperCauseSchema, faultSchema } from '../schema.ts';
import type { Breach, Rule } from './breach.ts';

function misshapen(kind: string, pieces: readonly { id: string }[], schema: z.ZodType): Breach[] {
  return pieces.flatMap((piece) => {
    const issues = schema.safeParse(piece).error?.issues ?? [];
    return issues.map(({ path, message }) => ({
      path: [kind, piece.id, ...path].join('.'),
      message,
      tip: 'Compare with the schemas in src/knowledge/schema.ts.',
    }));
  });
}

export const dataFitsSchemas: Rule = ({ faults, checks, cautions, complaints, deeperCauses }) => [
  ...misshapen('faults', faults, faultSchema),
  ...misshapen('checks', checks, checkSchema),
  ...misshapen('cautions', cautions, cautionSchema),
  ...misshapen('complaints', complaints, complaintSchema),
  ...misshapen('deeperCauses', deeperCauses, deeperCauseSchema),
];
