/** Prints what sentences mean, one JSON a line: `npm run -s interpret -- --locale en [--asked filter-pressure]`. */
import { createInterface } from 'node:readline';
import { parseArgs } from 'node:util';
import type { Asked, Locale, Understood } from '../dialogues/event.ts';
import { LOCALES } from '../dialogues/event.ts';
import { CHECK_IDS, isQuantity, type CheckId } from '../knowledge/ids.ts';
import { checkById } from '../knowledge/trade.ts';
import { translate } from '../language/texts.ts';
import { understand } from '../language/understanding/understand.ts';

interface Wanted {
  locale: Locale;
  asked: Asked | undefined;
}

const isCheck = (id: string): id is CheckId => CHECK_IDS.some((check) => check === id);
const isLocale = (name: string): name is Locale => LOCALES.some((locale) => locale === name);

/** The check as a question on the screen; any other name is a question without options. */
function questionOf(id: string, locale: Locale): Asked {
  if (!isCheck(id)) return { id, options: [] };
  const { outcomes, silent } = checkById(id);
  const own = [...outcomes, ...silent].map((outcome) => ({
    id: outcome,
    label: translate(locale, `checks:${id}.outcomes.${outcome}`),
  }));
  const always = ['unsure', 'skip'].map((option) => ({
    id: option,
    label: translate(locale, `dialogue:option.${option}`),
  }));
  return { id, options: [...own, ...always], ...(isQuantity(id) ? { reading: id } : {}) };
}

function wantedIn(args: readonly string[]): Wanted | undefined {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: { locale: { type: 'string', default: 'en' }, asked: { type: 'string' } },
    });
    if (!isLocale(values.locale)) return undefined;
    const asked = values.asked === undefined ? undefined : questionOf(values.asked, values.locale);
    return { locale: values.locale, asked };
  } catch {
    return undefined;
  }
}

/** The meaning in the form that is printed: what is unclear carries no text. */
function printed(understood: Understood): object {
  return understood.kind === 'unclear' ? { kind: 'unclear' } : understood;
}

async function main(args: readonly string[]): Promise<number> {
  const wanted = wantedIn(args);
  if (wanted === undefined) {
    process.stderr.write('npm run -s interpret -- --locale en|es [--asked CHECK-ID] < SENTENCES\n');
    return 2;
  }
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Infinity })) {
    const meant = understand(line, wanted.asked, wanted.locale);
    process.stdout.write(`${JSON.stringify(printed(meant))}\n`);
  }
  return 0;
}

process.exitCode = await main(process.argv.slice(2));
