/** The least Σ w C of jobs on one machine under precedence, by dynamic programming over sets of jobs done. */

export interface Jobs {
  duration: readonly number[];
  weight: readonly number[];
  /** Pairs [before, after], counted from 0. */
  precedence: readonly (readonly [number, number])[];
}

/** Σ w C of one order. */
export function costOfOrder({ duration, weight }: Jobs, order: readonly number[]): number {
  let time = 0;
  return order.reduce((sum, job) => {
    time += duration[job]!;
    return sum + weight[job]! * time;
  }, 0);
}

function mayFollow({ precedence }: Jobs, job: number, done: number): boolean {
  return precedence.every(([before, after]) => after !== job || (done & (1 << before)) !== 0);
}

/** Least cost and how many orders reach it. At most some 20 jobs. */
export function leastSequence(jobs: Jobs): { cost: number; orders: number } {
  const count = jobs.duration.length;
  const all = (1 << count) - 1;
  const known = new Map<number, { cost: number; orders: number }>([[all, { cost: 0, orders: 1 }]]);
  const from = (done: number, time: number): { cost: number; orders: number } => {
    const seen = known.get(done);
    if (seen !== undefined) return seen;
    let best = { cost: Infinity, orders: 0 };
    for (let job = 0; job < count; job += 1) {
      if ((done & (1 << job)) !== 0 || !mayFollow(jobs, job, done)) continue;
      const end = time + jobs.duration[job]!;
      const rest = from(done | (1 << job), end);
      const cost = jobs.weight[job]! * end + rest.cost;
      if (Math.abs(cost - best.cost) < 1e-9) best = { cost, orders: best.orders + rest.orders };
      else if (cost < best.cost) best = { cost, orders: rest.orders };
    }
    known.set(done, best);
    return best;
  };
  return from(0, 0);
}
