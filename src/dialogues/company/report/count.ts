/** Counting a report's figures. */
import { MINUTE_MS } from '../../../calc/units.ts';
import type { SuspectId } from '../../../knowledge/ids.ts';
import { SOON_MS } from '../repeat.ts';
import type { CauseRow, ClosingRow, EquipmentClass, Period, ReportRows } from './rows.ts';

/** How often each is there, the most frequent first. */
export type Counted<Id> = readonly (readonly [Id, number])[];

export interface TechnicianFigures {
  /** Empty where nobody knows any more who it was. */
  name: string;
  closed: number;
  /** Median, minutes. */
  minutes?: number;
  judged: number;
  right: number;
  repeats: number;
}

export interface ClassFigures {
  key: 'cleaner' | 'filter';
  /** Undefined where it is not known. */
  value?: string;
  cases: number;
  cured: number;
  visits: number;
  repeats: number;
}

export interface Figures {
  cases: number;
  /** Cured with no visit asked for. */
  cured: number;
  /** Asked for and not cancelled. */
  visits: number;
  cancelled: number;
  closed: number;
  why: Counted<SuspectId | undefined>;
  causes: Counted<SuspectId>;
  /** Closings of which the first suspicion is known, and in how many of them it was the cause. */
  judged: number;
  right: number;
  /** Visits that somebody took up, and the median of the minutes until then. */
  answered: number;
  answerMinutes?: number;
  /** Causes confirmed again at the same pool within a month. */
  repeats: number;
  technicians: readonly TechnicianFigures[];
  classes: readonly ClassFigures[];
}

function counted<Id>(ids: readonly Id[]): Counted<Id> {
  const counts = new Map<Id, number>();
  for (const id of ids) counts.set(id, (counts.get(id) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a);
}

/** The middle value, or the mean of the two in the middle; undefined of none. */
function median(values: readonly number[]): number | undefined {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  const high = sorted[Math.floor(half)];
  const low = sorted[Math.ceil(half) - 1];
  return low === undefined || high === undefined ? undefined : (low + high) / 2;
}

/** The causes of the period that were confirmed at the same pool less than a month before. */
function repeated(causes: readonly CauseRow[], { from, to }: Period): CauseRow[] {
  return causes.filter(
    ({ pool, fault, at }) =>
      at >= from &&
      at < to &&
      causes.some((one) => one.pool === pool && one.fault === fault && one.at < at && at - one.at <= SOON_MS),
  );
}

function isRight({ cause, firstSuspect }: ClosingRow): boolean {
  return cause === firstSuspect;
}

function judgedOf(closings: readonly ClosingRow[]): ClosingRow[] {
  return closings.filter(({ firstSuspect }) => firstSuspect !== undefined);
}

/** Cases cured with no visit asked for. */
function curedOf(cases: ReportRows['cases']): number {
  return cases.filter(({ outcome, visited }) => outcome === 'fixed' && !visited).length;
}

/** Visits asked for and not cancelled. */
function askedOf(visits: ReportRows['visits']): ReportRows['visits'] {
  return visits.filter(({ isCancelled }) => !isCancelled);
}

/** A figure that is left out where there is nothing to make it of. */
function where<K extends string>(key: K, value: number | undefined): Partial<Record<K, number>> {
  return value === undefined ? {} : ({ [key]: value } as Partial<Record<K, number>>);
}

function technicianFigures(
  closings: readonly ClosingRow[],
  repeats: readonly CauseRow[],
): TechnicianFigures[] {
  const people = new Map<string, ClosingRow[]>();
  for (const closing of closings) {
    const id = closing.technician?.person ?? '';
    people.set(id, [...(people.get(id) ?? []), closing]);
  }
  return [...people]
    .map(([id, own]): TechnicianFigures => {
      const judged = judgedOf(own);
      return {
        name: own.find(({ technician }) => technician !== undefined)?.technician?.name ?? '',
        closed: own.length,
        ...where('minutes', median(own.flatMap(({ minutes }) => minutes ?? []))),
        judged: judged.length,
        right: judged.filter(isRight).length,
        repeats: repeats.filter(({ technician }) => id !== '' && technician === id).length,
      };
    })
    .sort((a, b) => b.closed - a.closed);
}

function classFigures(rows: ReportRows, repeats: readonly CauseRow[]): ClassFigures[] {
  const asked = askedOf(rows.visits);
  return (['cleaner', 'filter'] as const).flatMap((key) => {
    const values = new Set([...rows.cases, ...rows.visits, ...repeats].map((row) => row[key]));
    const of = <T extends EquipmentClass>(all: readonly T[], value: string | undefined): T[] =>
      all.filter((row) => row[key] === value);
    return [...values]
      .map((value): ClassFigures => {
        const cases = of(rows.cases, value);
        return {
          key,
          ...(value === undefined ? {} : { value }),
          cases: cases.length,
          cured: curedOf(cases),
          visits: of(asked, value).length,
          repeats: of(repeats, value).length,
        };
      })
      .sort((a, b) => b.cases - a.cases);
  });
}

/** The figures of a period. */
export function figuresOf(rows: ReportRows, period: Period): Figures {
  const { cases, visits, closings, causes } = rows;
  const asked = askedOf(visits);
  const judged = judgedOf(closings);
  const repeats = repeated(causes, period);
  const answers = asked.flatMap(({ openedAt, acceptedAt }) =>
    acceptedAt === undefined ? [] : [(acceptedAt - openedAt) / MINUTE_MS],
  );
  const owners = causes.filter(({ at, by }) => by === 'owner' && at >= period.from && at < period.to);
  const found = [...closings.map(({ cause }): SuspectId => cause), ...owners.map(({ fault }) => fault)];
  return {
    cases: cases.length,
    cured: curedOf(cases),
    visits: asked.length,
    cancelled: visits.length - asked.length,
    closed: closings.length,
    why: counted(asked.map(({ why }) => why)),
    causes: counted(found),
    judged: judged.length,
    right: judged.filter(isRight).length,
    answered: answers.length,
    ...where('answerMinutes', median(answers)),
    repeats: repeats.length,
    technicians: technicianFigures(closings, repeats),
    classes: classFigures(rows, repeats),
  };
}
