/** Recognition by a service that speaks the common `POST /v1/audio/transcriptions` form, in every language it knows. */
import { z } from 'zod';
import { audioFile, type AudioFile, type AudioKind } from './audio-file.ts';
import { LONGEST_MS } from './limits.ts';
import { unheard, type About, type Hearing, type Recogniser } from './recogniser.ts';

export interface ServiceConfig {
  /** Where the service is, as `http://127.0.0.1:8000`; `/v1/audio/transcriptions` is added where it is missing. */
  url: string;
  key?: string | undefined;
  /** Name of the model, where the service asks for one. */
  model?: string | undefined;
  /** Shorter than the usual limit, milliseconds; for tests. */
  timeMs?: number;
}

const PATH = '/v1/audio/transcriptions';
/** A minute of speech is some thousand characters. */
const LARGEST_ANSWER_BYTES = 200_000;
const LONGEST_TEXT = 2_000;
/** Where the service does not say how sure it is. */
const UNKNOWN_CONFIDENCE = 0.6;

const MEDIA_TYPES: Record<AudioKind, string> = {
  opus: 'audio/ogg',
  ogg: 'audio/ogg',
  wave: 'audio/wav',
  mp3: 'audio/mpeg',
  mp4: 'audio/mp4',
  webm: 'audio/webm',
  flac: 'audio/flac',
  amr: 'audio/amr',
};
const ENDINGS: Partial<Record<AudioKind, string>> = { opus: 'ogg', wave: 'wav' };

const answerSchema = z.object({
  text: z.string(),
  segments: z.array(z.object({ avg_logprob: z.number().optional() })).optional(),
});

type Answer = z.infer<typeof answerSchema>;

/** Mean probability of a word, where the service gives it by segment. */
function confidenceIn({ segments = [] }: Answer): number {
  const logs = segments.flatMap(({ avg_logprob: log }) => (log === undefined ? [] : [log]));
  if (logs.length === 0) return UNKNOWN_CONFIDENCE;
  return Math.min(1, Math.exp(logs.reduce((sum, log) => sum + log, 0) / logs.length));
}

function formOf({ bytes, kind }: AudioFile & { is: 'audio' }, about: About, model: string): FormData {
  const form = new FormData();
  const blob = new Blob([new Uint8Array(bytes)], { type: MEDIA_TYPES[kind] });
  form.set('file', blob, `note.${ENDINGS[kind] ?? kind}`);
  form.set('model', model);
  form.set('language', about.language);
  form.set('response_format', 'json');
  form.set('temperature', '0');
  const words = (about.expecting?.options ?? []).map(({ label }) => label);
  // Words that are likely to come help a service to spell them as the bot knows them.
  if (words.length > 0) form.set('prompt', words.join(', ').slice(0, 500));
  return form;
}

/** The body as text; undefined where it is larger than any honest answer. */
async function bodyOf(response: Response): Promise<string | undefined> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  const reader = response.body?.getReader();
  if (reader === undefined) return '';
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    const chunk = part.value as Uint8Array;
    size += chunk.length;
    if (size > LARGEST_ANSWER_BYTES) {
      await reader.cancel();
      return undefined;
    }
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString('utf8');
}

function parsed(body: string | undefined): Answer | undefined {
  try {
    return answerSchema.safeParse(JSON.parse(body ?? '')).data;
  } catch {
    return undefined;
  }
}

async function meaningOf(response: Response): Promise<Hearing> {
  if (response.status === 413) return unheard('too-big');
  if ([400, 415, 422].includes(response.status)) return unheard('not-audio');
  if (!response.ok) return unheard('missing');
  const answer = parsed(await bodyOf(response));
  if (answer === undefined) return unheard('missing');
  const text = answer.text.trim().slice(0, LONGEST_TEXT);
  return text === ''
    ? unheard('nothing')
    : { kind: 'heard', text, alternatives: [], confidence: confidenceIn(answer) };
}

function addressOf(url: string): string {
  const bare = url.replace(/\/+$/u, '');
  if (bare.endsWith(PATH)) return bare;
  return bare.endsWith('/v1') ? `${bare}${PATH.slice(3)}` : `${bare}${PATH}`;
}

function failureOf(error: unknown): Hearing {
  return unheard(error instanceof DOMException && error.name === 'TimeoutError' ? 'slow' : 'missing');
}

/** A recogniser that asks a service. The service is trusted to be a service, not to be right, quick or small. */
export function httpRecogniser({
  url,
  key,
  model = 'default',
  timeMs = LONGEST_MS,
}: ServiceConfig): Recogniser {
  const ask = async (form: FormData): Promise<Hearing> => {
    const response = await fetch(addressOf(url), {
      method: 'POST',
      body: form,
      redirect: 'error',
      signal: AbortSignal.timeout(timeMs),
      ...(key === undefined ? {} : { headers: { authorization: `Bearer ${key}` } }),
    });
    return meaningOf(response);
  };
  return {
    recognise: async (file, about) => {
      const audio = await audioFile(file);
      if (audio.is === 'refused') return unheard(audio.why);
      return ask(formOf(audio, about, model)).catch(failureOf);
    },
  };
}
