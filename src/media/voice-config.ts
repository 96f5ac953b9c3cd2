/** What the environment says about voice. */
import { z } from 'zod';
import type { ServiceConfig } from './http-recogniser.ts';

export interface VoiceConfig {
  /** A service that recognises speech; undefined for the recogniser on this machine. */
  service: ServiceConfig | undefined;
}

const empty = (value: unknown): unknown => (value === '' ? undefined : value);

const schema = z.object({
  PADSIDE_SPEECH_URL: z.preprocess(
    empty,
    z.url({ protocol: /^https?$/, error: 'has to be an http or https address' }).optional(),
  ),
  PADSIDE_SPEECH_KEY: z.preprocess(empty, z.string().optional()),
  PADSIDE_SPEECH_MODEL: z.preprocess(empty, z.string().max(200).optional()),
});

/** Reads the variables; every problem is one line, and none shows a key. */
export function voiceConfig(environment: NodeJS.ProcessEnv): { config: VoiceConfig; problems: string[] } {
  const parsed = schema.safeParse(environment);
  if (!parsed.success)
    return {
      config: { service: undefined },
      problems: parsed.error.issues.map((issue) => `${issue.path.join('.')} ${issue.message}`),
    };
  const { PADSIDE_SPEECH_URL: url, PADSIDE_SPEECH_KEY: key, PADSIDE_SPEECH_MODEL: model } = parsed.data;
  return { config: { service: url === undefined ? undefined : { url, key, model } }, problems: [] };
}
