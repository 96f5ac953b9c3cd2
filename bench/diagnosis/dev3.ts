import { patients } from './compare.ts';
import { play } from './play.ts';
import { POLICIES } from './policies.ts';
const count = Number(process.argv[2]);
const draw = process.argv[3] as 'prior';
const br = new Map<string, number>();
const wrong: string[] = [];
let n = 0;
const t = performance.now();
let min = 0,
  own = 0,
  needless = 0,
  right = 0,
  steps = 0;
const seen: unknown[] = [];
for (const p of patients(draw, count)) {
  let last: any;
  const e = play(p, (c, m) => {
    last = c.events;
    return POLICIES.padside(c, m);
  });
  min += e.minutes;
  own += e.ownMinutes;
  right += +e.right;
  needless += +e.needlessVisit;
  steps += e.steps;
  for (const b of e.breaches) br.set(b, (br.get(b) ?? 0) + 1);
  if (!e.right || e.needlessVisit)
    wrong.push(
      `${p.setting.role} ${p.setting.complaint} ${p.fault.id} part=${p.fault.repair.part} believed ${e.believed.toFixed(3)} first ${e.first.p.toFixed(2)} steps ${e.steps} ` +
        last
          .filter((x: any) => x.kind !== 'understood')
          .map((x: any) =>
            x.kind === 'answer'
              ? `${x.check}=${x.outcome}`
              : x.kind === 'reading'
                ? x.check
                : x.kind === 'retired'
                  ? `?${x.check}`
                  : `R:${x.fault}`,
          )
          .join(' '),
    );
  n++;
}
console.log([...br]);
if (process.argv[4]) console.log(wrong.join('\n'));
console.log({
  min: min / n,
  own: own / n,
  right: right / n,
  needless: needless / n,
  steps: steps / n,
  s: (performance.now() - t) / 1000,
});
