/** What serving the platform needs to know, from the environment. */
import { z } from 'zod';
import { fromFile } from './secret-file.ts';

export interface TelegramConfig {
  token: string;
  /** A Bot API server of one's own; undefined for the platform's. */
  apiRoot: string | undefined;
  webhook: { url: string; secret: string; host: string; port: number } | undefined;
  /** Loopback port of the health address; none where undefined. */
  healthPort: number | undefined;
}

interface Read {
  config?: TelegramConfig;
  problems: string[];
}

const DEFAULT_HEALTH_PORT = 9464;
const LOOPBACK = '127.0.0.1:8080';

const token = z
  .string()
  .regex(
    /^\d{3,}:[\w-]{20,}$/,
    'is no bot token: one looks like 123456:ABC-def… and comes from the platform',
  );
const secret = z
  .string()
  .regex(/^[\w-]{16,256}$/, 'has to be 16 to 256 letters, digits, _ or -')
  .optional();
const url = (protocols: RegExp, tip: string): z.ZodOptional<z.ZodURL> =>
  z.url({ protocol: protocols, error: tip }).optional();
const port = z.coerce.number().int().min(0).max(65_535);

const schema = z.object({
  PADSIDE_TELEGRAM_TOKEN: token,
  PADSIDE_TELEGRAM_API_ROOT: url(/^https?$/, 'has to be an http or https address'),
  PADSIDE_WEBHOOK_URL: url(/^https$/, 'has to be an https address'),
  PADSIDE_WEBHOOK_SECRET: secret,
  PADSIDE_WEBHOOK_LISTEN: z
    .string()
    .regex(/^[^\s:]+:\d{1,5}$/, `has to be a host and a port, as in ${LOOPBACK}`)
    .default(LOOPBACK),
  PADSIDE_HEALTH_PORT: port.default(DEFAULT_HEALTH_PORT),
});

type Settings = z.infer<typeof schema>;

function webhookOf(settings: Settings): TelegramConfig['webhook'] {
  const { PADSIDE_WEBHOOK_URL: address, PADSIDE_WEBHOOK_SECRET: word, PADSIDE_WEBHOOK_LISTEN: at } = settings;
  if (address === undefined || word === undefined) return undefined;
  const [host = '', listenPort = ''] = at.split(':');
  return { url: address, secret: word, host, port: Number(listenPort) };
}

function configOf(settings: Settings): TelegramConfig {
  const { PADSIDE_HEALTH_PORT: health } = settings;
  return {
    token: settings.PADSIDE_TELEGRAM_TOKEN,
    apiRoot: settings.PADSIDE_TELEGRAM_API_ROOT,
    webhook: webhookOf(settings),
    healthPort: health === 0 ? undefined : health,
  };
}

/** Reads what the platform needs: nothing where no token is set, else the configuration or every problem with it. */
export function telegramConfig(environment: NodeJS.ProcessEnv): Read {
  const problems: string[] = [];
  const { PADSIDE_TELEGRAM_TOKEN: bare, PADSIDE_TELEGRAM_TOKEN_FILE: file } = environment;
  if (bare === undefined && file === undefined) return { problems };
  const read = {
    ...environment,
    PADSIDE_TELEGRAM_TOKEN: fromFile('PADSIDE_TELEGRAM_TOKEN', environment, problems),
    PADSIDE_WEBHOOK_SECRET: fromFile('PADSIDE_WEBHOOK_SECRET', environment, problems),
  };
  const parsed = schema.safeParse(read);
  if (environment.PADSIDE_WEBHOOK_URL !== undefined && read.PADSIDE_WEBHOOK_SECRET === undefined)
    problems.push('PADSIDE_WEBHOOK_SECRET: a webhook needs a secret');
  if (!parsed.success) {
    const unread = read.PADSIDE_TELEGRAM_TOKEN === undefined;
    for (const { path, message } of parsed.error.issues)
      if (!(unread && path[0] === 'PADSIDE_TELEGRAM_TOKEN')) problems.push(`${path.join('.')}: ${message}`);
  }
  return parsed.success && problems.length === 0 ? { config: configOf(parsed.data), problems } : { problems };
}
