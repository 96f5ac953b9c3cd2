/** How well beliefs fitted confirmed causes, from the command line: scores and a table. */
import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { calibrationOf, FEWEST_CASES } from '../dialogues/calibration.ts';
import { translate } from '../language/texts.ts';
import { judgedCases } from '../store/calibration.ts';
import { openDatabase } from '../store/database.ts';
import { databaseFile, printed } from './command-line.ts';

function line(key: string, facts: Record<string, string | number> = {}): string {
  return translate('en', `app:calibration.${key}`, facts);
}

function run(file: string): string {
  if (!existsSync(file)) return line('no-database', { file });
  const database = openDatabase(file);
  try {
    const { cases, right, brier, logLoss, reliability } = calibrationOf(judgedCases(database));
    if (cases === 0) return line('none');
    const digits = (value: number): string => value.toFixed(3);
    const warning = cases < FEWEST_CASES ? [line('too-few', { cases, need: FEWEST_CASES })] : [];
    const rows = reliability.map(({ from, count, forecast, happened }) =>
      [digits(from), String(count), digits(forecast), digits(happened)]
        .map((one) => one.padStart(10))
        .join(''),
    );
    return [
      ...warning,
      line('scores', { cases, right, brier: digits(brier), loss: digits(logLoss) }),
      line('heading'),
      ['from', 'beliefs', 'mean', 'came true'].map((one) => one.padStart(10)).join(''),
      ...rows,
    ].join('\n');
  } finally {
    database.close();
  }
}

const { values } = parseArgs({ options: { db: { type: 'string' } } });
await printed(
  () => `${run(databaseFile(values.db))}
`,
);
