/** What the environment says about voice. */
import { dirname, join } from 'node:path';
import { z } from 'zod';
import type { ServiceConfig } from '../media/http-recogniser.ts';
import { fromFile } from './secret-file.ts';

export interface VoiceConfig {
  /** A service that recognises speech; undefined for the recogniser on this machine. */
  service: ServiceConfig | undefined;
  /** Days for which voice notes are kept after they were heard; usually 0. */
  keepDays: number;
  /** Where kept notes and, in the terminal, spoken replies lie. */
  folder: string;
}

interface Read {
  config: VoiceConfig;
  problems: string[];
}

const LONGEST_KEPT_DAYS = 365;
const DAYS_TIP = `has to be a whole number of days from 0 to ${LONGEST_KEPT_DAYS}`;

const schema = z.object({
  PADSIDE_SPEECH_URL: z.url({ protocol: /^https?$/, error: 'has to be an http or https address' }).optional(),
  PADSIDE_SPEECH_KEY: z.string().optional(),
  PADSIDE_SPEECH_MODEL: z.string().max(200, 'is longer than 200 characters').optional(),
  PADSIDE_VOICE_KEEP_DAYS: z.coerce
    .number(DAYS_TIP)
    .int(DAYS_TIP)
    .min(0, DAYS_TIP)
    .max(LONGEST_KEPT_DAYS, DAYS_TIP)
    .default(0),
  PADSIDE_VOICE_FOLDER: z.string().optional(),
});

type Settings = z.infer<typeof schema>;

/** Beside the database, or in the usual data folder where that is in memory. */
function usualFolder(database: string): string {
  return join(database === ':memory:' ? 'data' : dirname(database), 'voice');
}

function configOf(settings: Settings, database: string): VoiceConfig {
  const { PADSIDE_SPEECH_URL: url, PADSIDE_SPEECH_KEY: key, PADSIDE_SPEECH_MODEL: model } = settings;
  return {
    service: url === undefined ? undefined : { url, key, model },
    keepDays: settings.PADSIDE_VOICE_KEEP_DAYS,
    folder: settings.PADSIDE_VOICE_FOLDER ?? usualFolder(database),
  };
}

/** Reads the variables; every problem is one line, and none shows a key. Empty variables have been taken out. */
export function voiceConfig(environment: NodeJS.ProcessEnv, database: string): Read {
  const problems: string[] = [];
  const read = { ...environment, PADSIDE_SPEECH_KEY: fromFile('PADSIDE_SPEECH_KEY', environment, problems) };
  const parsed = schema.safeParse(read);
  const needsUrl = read.PADSIDE_SPEECH_KEY !== undefined || environment.PADSIDE_SPEECH_MODEL !== undefined;
  if (environment.PADSIDE_SPEECH_URL === undefined && needsUrl)
    problems.push('PADSIDE_SPEECH_URL: a key or a model needs the address of the service');
  if (!parsed.success)
    problems.push(...parsed.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`));
  const settings = parsed.success ? parsed.data : { PADSIDE_VOICE_KEEP_DAYS: 0 };
  return { config: configOf(settings, database), problems };
}
