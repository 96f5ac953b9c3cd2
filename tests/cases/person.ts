/** The person of a case file: answers what the bot asks with what they would find at that pool. */
import type { Body, Message } from '../../src/dialogues/message.ts';
import type { CheckId, Quantity } from '../../src/knowledge/ids.ts';
import { CHECK_IDS, isQuantity } from '../../src/knowledge/ids.ts';
import { checkById } from '../../src/knowledge/trade.ts';
import { play } from '../driver/play.ts';
import type { Talk } from '../driver/talk.ts';
import { startTalk } from '../driver/talk.ts';
import type { CaseFile } from './case-file.ts';
import { cleanGauges } from './case-file.ts';

function asCheck(id: string): CheckId {
  const check = CHECK_IDS.find((known) => known === id);
  if (check === undefined) throw new Error(`"${id}" is no check`);
  return check;
}

/** Whether the message puts a check. */
function isStep({ kind }: Message): boolean {
  return kind === 'check' || kind === 'reading';
}

function foundAt(check: CheckId, file: CaseFile): string {
  const clean = isQuantity(check) ? file.clean[check] : undefined;
  const { outcomes, silent } = checkById(check);
  const found = file.finds[check] ?? clean ?? outcomes[0] ?? silent[0];
  if (found === undefined) throw new Error(`Nothing can be found at "${check}"`);
  return found;
}

function answerToCheck(message: Message, file: CaseFile): Body {
  const found = foundAt(asCheck(message.id), file);
  const isOption = message.options?.some(({ id }) => id === found) ?? false;
  return isOption || message.kind === 'check'
    ? { kind: 'choose', option: found }
    : { kind: 'text', text: found };
}

function resultOfRepair(fault: string, file: CaseFile): string {
  if (file.cannot.some((id) => id === fault)) return 'cannot';
  return fault === file['cured by'] ? 'worked' : 'not-yet';
}

function answerOf(message: Message, file: CaseFile): Body {
  const { kind, id } = message;
  if (kind === 'caution') return { kind: 'choose', option: 'understood' };
  if (kind === 'repair') return { kind: 'choose', option: resultOfRepair(id, file) };
  if (isStep(message)) return answerToCheck(message, file);
  return { kind: 'choose', option: 'skip' };
}

export interface PlayedCase {
  messages: Message[];
  /** What was asked and answered, a line each. */
  transcript: string[];
  talk: Talk;
}

/** Plays a case file from the complaint to its result. */
export function playCase(file: CaseFile): PlayedCase {
  const talk = startTalk({
    role: file.role,
    pool: { name: 'Invented pool', equipment: withoutUndefined(file.pool), clean: cleanGauges(file) },
  });
  const opening: Body =
    file.says === undefined ? { kind: 'choose', option: file.complaint } : { kind: 'text', text: file.says };
  const transcript: string[] = [];
  let untold = file.volunteers;
  const messages = play(talk, opening, (message) => {
    const body: Body =
      isStep(message) && untold !== undefined ? { kind: 'text', text: untold } : answerOf(message, file);
    if (isStep(message)) untold = undefined;
    const words = 'option' in body ? body.option : 'text' in body ? body.text : '';
    transcript.push(`${message.kind} ${message.id}: ${words}`);
    return body;
  });
  return { messages, transcript, talk };
}

function withoutUndefined(pool: CaseFile['pool']): Parameters<Talk['store']['seed']>[1]['equipment'] {
  return Object.fromEntries(Object.entries(pool).filter(([, value]) => value !== undefined));
}

const GAUGE_WORDS: Record<Quantity, string> = {
  'filter-pressure': 'filter',
  'pump-vacuum': 'pump vacuum',
  'cleaner-suction': 'cleaner suction',
  'wheel-turns': 'wheel',
};

/** Tells the readings with all working again, as the answer to the offer to keep them. */
export function tellAfterwards(file: CaseFile, talk: Talk): Message[] {
  const said = Object.entries(file.afterwards).map(([quantity, reading]) =>
    isQuantity(quantity) ? `${GAUGE_WORDS[quantity]} ${reading}` : reading,
  );
  return said.length === 0 ? [] : talk.say(said.join(', '));
}
