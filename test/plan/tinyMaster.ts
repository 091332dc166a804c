/** The joint master of a job, roughly converged over few lengths; the caller disposes of it. */
import type { Job } from '../../src/job/job.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import { generate } from '../../src/plan/generate.ts';
import { firstLengths } from '../../src/plan/lengths.ts';
import { Master } from '../../src/plan/master.ts';
import { berthsOf } from '../../src/plan/pricing.ts';
import { problemOf } from '../../src/plan/problem.ts';

export async function tinyMaster(job: Job) {
  const engine = await loadHighs();
  const problem = problemOf(job);
  const berths = berthsOf(problem);
  const lengths = firstLengths(problem, 150);
  const master = new Master(engine, problem);
  lengths.forEach((own, steel) => {
    for (const length of own) master.addLength(steel, length);
  });
  const { prices } = generate(problem, master, berths, { lengths, rounds: 20, tolerance: 1e-2 });
  return { engine, problem, berths, lengths, master, prices };
}
