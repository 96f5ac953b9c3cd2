/** What a company's first line came to: as a message, a picture and a file. */
import { permit } from '../../access.ts';
import type { Context, Flow, Move } from '../../conversation.ts';
import type { Understood } from '../../event.ts';
import type { Facts } from '../../record.ts';
import type { Option, Say } from '../../say.ts';
import { info, question, text } from '../../say.ts';
import type { Permit } from '../permit.ts';
import { saidAndBack } from '../words.ts';
import { figuresOf } from './count.ts';
import type { Span } from './period.ts';
import { periodOf, spanNamed, SPANS } from './period.ts';
import type { Report } from './sheet.ts';
import { reportLines, reportSheet, reportTable } from './sheet.ts';

type ReportFlow = Extract<Flow, { at: 'report' }>;

/** For which stretch of time. */
export function askReport(): Say[] {
  const options = SPANS.map((span): Option => ({ id: span, label: text(`report:span.${span}`) }));
  return [question('report', text('report:ask'), options)];
}

function reportOf(span: Span, given: Permit, { now, office }: Facts): Report {
  const { name: company, timeZone: zone } = given.company;
  const period = periodOf(span, now, zone);
  return { company, span, period, zone, figures: figuresOf(office.reportRows(given, period), period) };
}

function told(span: Span, given: Permit, then: Flow, { facts }: Context): Move {
  const report = reportOf(span, given, facts);
  const { cases, visits, closed } = report.figures;
  const lines = reportLines(report);
  if (cases + visits + closed === 0)
    return saidAndBack(then, info('report', ...lines.slice(0, 2), text('report:empty')));
  const picture: Say = {
    kind: 'picture',
    id: 'report',
    text: lines.slice(0, 2),
    picture: reportSheet(report),
  };
  const file = { holds: 'table', name: `report-${span}.csv`, lines: reportTable(report) } as const;
  return saidAndBack(then, info('report', ...lines), picture, {
    kind: 'file',
    id: 'report',
    text: [text('report:file')],
    file,
  });
}

/** Reports on the stretch of time that was named with the command, or asks for it. */
export function reporting(given: Permit, argument: string, then: Flow, context: Context): Move {
  const span = spanNamed(argument);
  if (span === undefined) return { flow: { at: 'report', company: given.company.id, then } };
  return told(span, given, then, context);
}

/** Reports on the stretch of time chosen. */
export function answerReport(flow: ReportFlow, event: Understood, context: Context): Move | undefined {
  const given = permit({ flow: 'report' }, flow.company, context.facts);
  const said = event.kind === 'answer' ? event.option : event.kind === 'unclear' ? event.text : '';
  const span = spanNamed(said);
  return given && span && told(span, given, flow.then, context);
}
