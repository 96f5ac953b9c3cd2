/** A person with one fault at their pool, talking to the bot over the JSONL channel. */
import { randomUUID } from 'node:crypto';
import { PassThrough } from 'node:stream';
import { createInterface } from 'node:readline';
import { createBot } from '../../src/app/bot.ts';
import { localTalk } from '../../src/app/local.ts';
import { serveJsonl } from '../../src/channels/jsonl/jsonl.ts';
import type { Message } from '../../src/dialogues/message.ts';
import type { CheckId, FaultId, Quantity } from '../../src/knowledge/ids.ts';
import { isQuantity } from '../../src/knowledge/ids.ts';
import type { Equipment, Role } from '../../src/knowledge/schema.ts';
import { EQUIPMENT_KEYS } from '../../src/knowledge/schema.ts';
import { checkById, faultById } from '../../src/knowledge/trade.ts';
import { openStore } from '../../src/store/store.ts';
import { likeliestComplaint } from './profiles.ts';
import { CLEAN, TRUTH } from './truth.ts';

export interface Situation {
  fault: FaultId;
  equipment: Equipment;
  role: Role;
}

export interface Ending {
  outcome: string;
  fault: string | undefined;
  firstThree: string[];
  /** Checks, readings and repairs; cautions are not counted. */
  steps: number;
  /** The person's time: the nominal minutes of every step. */
  minutes: number;
}

type Line = { choose: string } | { text: string };

const MOST_TURNS = 150;
/** Answers at which a careless person goes wrong or is unsure are spread over the first so many. */
const FIRST_ANSWERS = 8;

/** Which of the first answers are wrong (one) and unsure (two). */
interface Slips {
  wrong: number;
  unsure: [number, number];
  random: () => number;
}

function slipsFrom(random: () => number): Slips {
  const places = Array.from({ length: FIRST_ANSWERS }, (_, index) => index);
  const draw = (): number => places.splice(Math.floor(random() * places.length), 1)[0]!;
  return { wrong: draw(), unsure: [draw(), draw()], random };
}

function trueReading(fault: FaultId, quantity: Quantity): Line {
  const { value, unit } = CLEAN[quantity];
  const ratio = TRUTH[fault].reads[quantity] ?? 1;
  return { text: `${(value * ratio).toFixed(1)} ${unit}` };
}

function trueAnswer(fault: FaultId, check: CheckId): Line {
  if (isQuantity(check)) return trueReading(fault, check);
  return { choose: TRUTH[fault].finds[check] ?? checkById(check).outcomes[0]! };
}

function wrongAnswer(fault: FaultId, check: CheckId, random: () => number): Line {
  if (isQuantity(check))
    return { text: `${(CLEAN[check].value * (0.5 + random())).toFixed(1)} ${CLEAN[check].unit}` };
  const truth = TRUTH[fault].finds[check] ?? checkById(check).outcomes[0];
  const others = checkById(check).outcomes.filter((outcome) => outcome !== truth);
  return { choose: others[Math.floor(random() * others.length)]! };
}

function answerTo(message: Message, { fault, equipment }: Situation, answered: number, slips?: Slips): Line {
  switch (message.kind) {
    case 'caution':
      return { choose: 'understood' };
    case 'repair':
      return { choose: message.id === fault ? 'worked' : 'not-yet' };
    case 'check':
    case 'reading': {
      const check = message.id as CheckId;
      if (slips?.unsure.includes(answered) === true) return { choose: 'unsure' };
      return slips?.wrong === answered ? wrongAnswer(fault, check, slips.random) : trueAnswer(fault, check);
    }
    default: {
      const key = EQUIPMENT_KEYS.find((known) => known === message.id);
      return { choose: (key && equipment[key]) ?? 'skip' };
    }
  }
}

/** The bot behind the JSONL channel, in this process. */
function jsonlBot(role: Role): { ask: (line: Line) => Promise<Message[]>; end: () => void } {
  const store = openStore(':memory:');
  let time = Date.UTC(2026, 2, 1);
  const now = (): number => (time += 1000);
  const bot = createBot({ store, now, freshId: randomUUID, locale: 'en', role });
  const talk = localTalk(bot, store, now, randomUUID, 'en');
  const input = new PassThrough();
  const output = new PassThrough();
  const answers = createInterface({ input: output })[Symbol.asyncIterator]();
  void serveJsonl({ input, output, talk, explain: false });
  const ask = async (said: Line): Promise<Message[]> => {
    input.write(`${JSON.stringify(said)}\n`);
    const messages: Message[] = [];
    for (;;) {
      const line = JSON.parse((await answers.next()).value as string) as Message | { kind: 'turn-end' };
      if (line.kind === 'turn-end') return messages;
      messages.push(line);
    }
  };
  const end = (): void => {
    input.end();
    store.close();
  };
  return { ask, end };
}

/** Leads one consult to its end. With `random`, one answer is wrong and two are unsure at random places. */
export async function consultOverJsonl(situation: Situation, random?: () => number): Promise<Ending> {
  const slips = random && slipsFrom(random);
  const { ask, end } = jsonlBot(situation.role);
  const complaint = likeliestComplaint(faultById(situation.fault), situation.equipment);
  let messages = await ask({ choose: complaint });
  let steps = 0;
  let minutes = 0;
  let answered = 0;
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    const result = messages.find(({ kind }) => kind === 'result');
    if (result !== undefined) {
      end();
      const firstThree = (result.belief ?? []).slice(0, 3).map(({ fault }) => fault);
      return { outcome: result.outcome ?? '', fault: result.fault, firstThree, steps, minutes };
    }
    const open = messages.at(-1)!;
    const line = answerTo(open, situation, answered, slips);
    if (open.kind === 'check' || open.kind === 'reading') answered += 1;
    if (open.kind !== 'caution' && open.kind !== 'question') {
      steps += 1;
      minutes += open.minutes ?? 0;
    }
    messages = await ask(line);
  }
  throw new Error(`No end after ${MOST_TURNS} turns: ${JSON.stringify(situation)}`);
}
