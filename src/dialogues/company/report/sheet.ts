/** A report in lines, as a sheet to be drawn, and as a table. */
import type { Figures } from './count.ts';
import type { Period } from './rows.ts';
import { localTime } from '../../local-time.ts';
import type { Cell, FigureSheet, Text } from '../../say.ts';
import { text } from '../../say.ts';
import { faultName } from '../../words.ts';
import type { Span } from './period.ts';

/** A report is read standing: the rest is in the file. */
const MOST_LINES = 6;

export interface Report {
  company: string;
  span: Span;
  period: Period;
  /** The zone whose days it counts. */
  zone: string;
  figures: Figures;
}

function whyName(why: Figures['why'][number][0]): Text {
  return why === undefined ? text('report:why-unknown') : faultName(why);
}

function technicianName(name: string): Text {
  return name === '' ? text('report:somebody') : text('report:named', { name });
}

function className({ key, value }: Figures['classes'][number]): Text {
  return text('report:class', {
    key: text(`equipment:${key}.name`),
    value: value === undefined ? text('report:not-known') : text(`equipment:${key}.options.${value}`),
  });
}

/** Day as 2030-06-01 in the report's zone: a file is sorted by it. */
function isoDay(at: number, zone: string): string {
  const { year, month, day } = localTime(at, zone);
  return [year, month, day].map((part) => String(part).padStart(2, '0')).join('-');
}

function daysOf({ period, zone }: Report): { from: string; to: string } {
  return { from: isoDay(period.from, zone), to: isoDay(period.to - 1, zone) };
}

function rounded(minutes: number | undefined): number | string {
  return minutes === undefined ? '–' : Math.round(minutes);
}

function share(right: number, judged: number): Text {
  return judged === 0
    ? text('report:none-judged')
    : text('report:share', { right, judged, percent: Math.round((100 * right) / judged) });
}

function title({ company, span }: Report): Text {
  return text(`report:title.${span}`, { company });
}

function overview({ figures }: Report): { label: Text; value: Text | number | string }[] {
  const { cases, cured, visits, closed, judged, right, answerMinutes, repeats } = figures;
  return [
    { label: text('report:cases'), value: cases },
    { label: text('report:cured'), value: cured },
    { label: text('report:visits'), value: visits },
    { label: text('report:closed'), value: closed },
    { label: text('report:right'), value: share(right, judged) },
    { label: text('report:answer'), value: rounded(answerMinutes) },
    { label: text('report:repeats'), value: repeats },
  ];
}

function listed(items: readonly (readonly [Text, number])[]): Text {
  const shown = items.slice(0, MOST_LINES).map(([name, count]) => text('report:counted', { name, count }));
  const more = items.length - shown.length;
  return text('report:list', {
    items: more === 0 ? shown : [...shown, text('report:more', { count: more })],
  });
}

function named<Id>(counted: readonly (readonly [Id, number])[], name: (id: Id) => Text): [Text, number][] {
  return counted.map(([id, count]) => [name(id), count]);
}

/** The report as a message. */
export function reportLines(report: Report): Text[] {
  const { figures } = report;
  const { why, causes, technicians, classes } = figures;
  const lines = [
    title(report),
    text('report:days', daysOf(report)),
    ...overview(report).map(({ label, value }) => text('report:line', { label, value })),
  ];
  if (why.length > 0) lines.push(text('report:why', { items: listed(named(why, whyName)) }));
  if (causes.length > 0) lines.push(text('report:causes', { items: listed(named(causes, faultName)) }));
  for (const { name, closed, minutes, judged, right, repeats } of technicians.slice(0, MOST_LINES))
    lines.push(
      text('report:technician', {
        name: technicianName(name),
        closed,
        minutes: rounded(minutes),
        share: share(right, judged),
        repeats,
      }),
    );
  for (const one of classes.slice(0, MOST_LINES)) {
    const { cases, cured, visits, repeats } = one;
    lines.push(text('report:of-class', { name: className(one), cases, cured, visits, repeats }));
  }
  return lines;
}

/** The report as a sheet to be drawn. */
export function reportSheet(report: Report): FigureSheet<Text> {
  const { why, causes, technicians, classes } = report.figures;
  const bars = (items: readonly [Text, number][]): { label: Text; value: number }[] =>
    items.slice(0, MOST_LINES).map(([label, value]) => ({ label, value }));
  return {
    draw: 'figures',
    title: title(report),
    subtitle: text('report:days', daysOf(report)),
    numbers: overview(report).map(({ label, value }) => ({
      label,
      value: text('report:value', { value }),
    })),
    charts: [
      { title: text('report:chart.why'), bars: bars(named(why, whyName)) },
      { title: text('report:chart.causes'), bars: bars(named(causes, faultName)) },
      {
        title: text('report:chart.technicians'),
        bars: technicians.slice(0, MOST_LINES).map(({ name, closed, judged, right }) => ({
          label: technicianName(name),
          value: closed,
          note: share(right, judged),
        })),
      },
      {
        title: text('report:chart.classes'),
        bars: classes.slice(0, MOST_LINES).map((one) => ({
          label: className(one),
          value: one.cases,
          note: text('report:class-note', { cured: one.cured, visits: one.visits }),
        })),
      },
    ].filter((chart) => chart.bars.length > 0),
  };
}

const COLUMNS = [
  'group',
  'name',
  'count',
  'cases',
  'cured_without_visit',
  'visits',
  'closed',
  'first_suspicion_right',
  'first_suspicion_known',
  'minutes',
  'repeat_faults',
] as const;
type Column = (typeof COLUMNS)[number];

function row(cells: Partial<Record<Column, Cell<Text>>>): Cell<Text>[] {
  return COLUMNS.map((column) => cells[column] ?? '');
}

function toTenths(minutes: number | undefined): number | string {
  return minutes === undefined ? '' : Math.round(10 * minutes) / 10;
}

/** The report as a table: a line a technician, a class, a cause and a reason, the total first. */
export function reportTable(report: Report): Cell<Text>[][] {
  const { figures } = report;
  const { from, to } = daysOf(report);
  const total = row({
    group: 'total',
    name: `${from} – ${to}`,
    cases: figures.cases,
    cured_without_visit: figures.cured,
    visits: figures.visits,
    closed: figures.closed,
    first_suspicion_right: figures.right,
    first_suspicion_known: figures.judged,
    minutes: toTenths(figures.answerMinutes),
    repeat_faults: figures.repeats,
  });
  const technicians = figures.technicians.map(({ name, closed, minutes, judged, right, repeats }) =>
    row({
      group: 'technician',
      name: technicianName(name),
      closed,
      minutes: toTenths(minutes),
      first_suspicion_right: right,
      first_suspicion_known: judged,
      repeat_faults: repeats,
    }),
  );
  const classes = figures.classes.map((one) =>
    row({
      group: one.key,
      name: className(one),
      cases: one.cases,
      cured_without_visit: one.cured,
      visits: one.visits,
      repeat_faults: one.repeats,
    }),
  );
  const why = figures.why.map(([id, count]) => row({ group: 'visit because of', name: whyName(id), count }));
  const causes = figures.causes.map(([id, count]) =>
    row({ group: 'confirmed cause', name: faultName(id), count }),
  );
  return [[...COLUMNS], total, ...technicians, ...classes, ...why, ...causes];
}
