/** The brief a technician gets: all that was found, in the order in which they will want it. */
import { explained } from '../engine/explain.ts';
import type { Explanation } from '../engine/explain.ts';
import { bandOf } from '../engine/gauge.ts';
import type { Case, CaseEvent } from '../engine/case.ts';
import { checksDone } from '../engine/case.ts';
import { modelOf } from '../engine/model.ts';
import { mayDo } from '../engine/situation.ts';
import type { EquipmentKey } from '../knowledge/schema.ts';
import { EQUIPMENT_KEYS } from '../knowledge/schema.ts';
import { CHECK_IDS, FAULT_IDS, SOMETHING_ELSE } from '../knowledge/ids.ts';
import { backAgain } from './company/repeat.ts';
import type { CaseRecord, PoolRecord } from './record.ts';
import { cleanBaseline } from './record.ts';
import { caseOf, equipmentFor } from './case-view.ts';
import type { Say, Text } from './say.ts';
import { text } from './say.ts';
import { equipmentValue, faultName, finding, judgedAgainst, poolName } from './words.ts';

const SUSPECTS = 3;

function percent(p: number): number {
  return Math.round(p * 100);
}

/** A suspect with its share and the answers behind it. */
export function suspectLine(suspect: Explanation): Text {
  const facts = { fault: faultName(suspect.fault), percent: percent(suspect.p) };
  const reasons: Text[] = [
    ...suspect.raisedBy.map((evidence) => text('dialogue:why.raised', { finding: finding(evidence) })),
    ...suspect.loweredBy.map((evidence) => text('dialogue:why.lowered', { finding: finding(evidence) })),
    ...(suspect.byHistory ? [text('dialogue:why.history')] : []),
    ...(suspect.byCompany === undefined ? [] : [text(`dialogue:why.company-${suspect.byCompany}`)]),
  ];
  return reasons.length === 0
    ? text('dialogue:why.suspect', facts)
    : text('dialogue:why.suspect-because', { ...facts, reasons });
}

function equipmentLine(pool: PoolRecord, record: CaseRecord): Text {
  const equipment = equipmentFor(record.complaint, pool.equipment);
  const known = EQUIPMENT_KEYS.filter((key: EquipmentKey) => equipment[key] !== undefined);
  if (known.length === 0) return text('dialogue:brief.equipment-unknown');
  const items = known.map((key) =>
    text('dialogue:brief.equipment-item', {
      name: text(`equipment:${key}.name`),
      value: equipmentValue(key, equipment[key] ?? ''),
    }),
  );
  return text('dialogue:brief.equipment', { items });
}

function eventLine(event: CaseEvent, oneCase: Case): Text[] {
  const when = { at: event.at };
  switch (event.kind) {
    case 'answer':
      return [
        text('dialogue:brief.found', {
          when,
          finding: finding({ check: event.check, outcome: event.outcome }),
        }),
      ];
    case 'reading': {
      const { baseline } = oneCase.setting;
      const band = { check: event.check, outcome: bandOf(event.check, event.value, baseline) };
      return [
        text('dialogue:brief.read', {
          when,
          finding: finding(band),
          reading: { quantity: event.check, value: event.value },
          against: judgedAgainst(event.check, baseline),
        }),
      ];
    }
    case 'repair':
      return [text(`dialogue:brief.repair-${event.result}`, { when, fault: faultName(event.fault) })];
    case 'retired':
    case 'understood':
    case 'pad-unknown':
      return [];
  }
}

/** What the person could not tell and what they left out, a line each: nobody needs the minute of it. */
function retiredLines(events: readonly CaseEvent[]): Text[] {
  return (['unsure', 'skip'] as const).flatMap((why) => {
    const retired = events.flatMap((event) =>
      event.kind === 'retired' && event.why === why ? [event.check] : [],
    );
    const items = [...new Set(retired)].map((check) => text(`checks:${check}.name`));
    return items.length === 0 ? [] : [text(`dialogue:brief.${why}`, { items })];
  });
}

function stepName(step: string): Text {
  const check = CHECK_IDS.find((id) => id === step);
  if (check !== undefined) return text(`checks:${check}.name`);
  const fault = FAULT_IDS.find((id) => id === step);
  return fault === undefined ? text('dialogue:brief.photo-elsewhere') : faultName(fault);
}

function photosLine({ photos = [] }: CaseRecord): Text[] {
  if (photos.length === 0) return [];
  const items = photos.map(({ step, at }) =>
    text('dialogue:brief.photo', { when: { at }, step: stepName(step) }),
  );
  return [text('dialogue:brief.photos', { items })];
}

function cautionsLine(events: readonly CaseEvent[]): Text[] {
  const given = new Set(events.flatMap((event) => (event.kind === 'understood' ? [event.caution] : [])));
  if (given.size === 0) return [];
  return [text('dialogue:brief.cautions', { items: [...given].map((id) => text(`cautions:${id}.name`)) })];
}

function notCheckedLine(oneCase: Case): Text[] {
  const done = checksDone(oneCase.events);
  const open = modelOf(oneCase.setting).checks.filter(
    (check) => !done.has(check.id) && mayDo(check, 'technician'),
  );
  if (open.length === 0) return [];
  return [
    text('dialogue:brief.not-checked', { items: open.map((check) => text(`checks:${check.id}.name`)) }),
  ];
}

function baselineLine(pool: PoolRecord): Text[] {
  const clean = Object.entries(cleanBaseline(pool)) as [keyof ReturnType<typeof cleanBaseline>, number][];
  if (clean.length === 0) return [text('dialogue:brief.no-baseline')];
  const items = clean.map(([quantity, value]) =>
    text('dialogue:brief.clean-item', {
      gauge: text(`checks:${quantity}.name`),
      reading: { quantity, value },
    }),
  );
  return [text('dialogue:brief.baseline', { items })];
}

/** The brief of one case. */
export function briefOf(pool: PoolRecord, record: CaseRecord): Say {
  const oneCase = caseOf(pool, record);
  const suspects = explained(oneCase, SUSPECTS);
  const known = suspects.map(({ fault }) => fault).filter((fault) => fault !== SOMETHING_ELSE);
  const bring = known.map((fault) => text(`faults:${fault}.bring`));
  const lines = record.events.flatMap((event) => eventLine(event, oneCase));
  return {
    kind: 'brief',
    id: record.id,
    text: [
      text('dialogue:brief.head', {
        pool: poolName(pool),
        complaint: text(`complaints:${record.complaint}.name`),
      }),
      ...known.flatMap((fault) => backAgain('brief', pool, fault, record.openedAt)),
      equipmentLine(pool, record),
      ...baselineLine(pool),
      text('dialogue:brief.suspects'),
      ...suspects.map(suspectLine),
      text('dialogue:brief.bring', { items: bring }),
      text(lines.length === 0 ? 'dialogue:brief.nothing-checked' : 'dialogue:brief.checked'),
      ...lines,
      ...retiredLines(record.events),
      ...photosLine(record),
      ...cautionsLine(record.events),
      ...notCheckedLine(oneCase),
    ],
  };
}
