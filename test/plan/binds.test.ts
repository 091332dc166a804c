/** What a plan says keeps its value down. */
import { expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import { bindsOf } from '../../src/plan/binds.ts';
import { planJob } from '../../src/plan/planner.ts';
import { problemOf } from '../../src/plan/problem.ts';
import { bundleMassOf } from '../../src/plan/totals.ts';
import { trialPair } from './trialPlan.ts';

/** What binds in a void with plenty of steel beside it, as fitted out. */
async function bindsIn(fitted: object): Promise<string[]> {
  const job = jobSchema.parse({
    format: 'kentledge-job/1',
    name: 'One void',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2000, count: 20 }],
    voids: [{ void: 'K', length: 620, width: 260, height: 110, ...fitted }],
  });
  const result = await planJob(job, { effort: 'quick', jobDigest: `sha256:${'0'.repeat(64)}` });
  if (result.kind !== 'plan') throw new Error('nothing is placed');
  return result.plan.binds ?? [];
}

const room = (lines: string[]) => lines.filter((line) => line.includes(' K'));

test('a void that is full is told, and nothing fitted where nothing is', async () => {
  expect(room(await bindsIn({}))).toEqual(['Room binds in K: more height, width or length would take more steel.']);
});

test('what is fitted in a full void and may take room is named', async () => {
  const lines = room(
    await bindsIn({
      drain: { where: 'middle', width: 60, height: 30 },
      keepOut: [{ what: 'bolt', along: [0, 60], across: [-130, -90], up: [0, 60] }],
    }),
  );
  expect(lines).toHaveLength(2);
  expect(lines[1]).toContain('30 mm high over dunnage of 12 mm');
  expect(lines[1]).toContain('what bundles stay off');
  expect(lines[1]).not.toContain('opening');
});

test('a channel no higher than the dunnage takes no room', async () => {
  expect(room(await bindsIn({ drain: { where: 'middle', width: 60, height: 12 } }))).toHaveLength(1);
});

const { job, plan } = trialPair();
const boundBy = (ballast: number): string => {
  const problem = problemOf({ ...job, aims: { ...job.aims, ballast } });
  return bindsOf(problem, plan, null).join(' ');
};

test('the ballast asked for is reached by bundles with their bands, though the steel alone falls short', () => {
  const whole = bundleMassOf(plan);
  const between = (plan.totals.placedMass + whole) / 2;
  expect(plan.totals.placedMass).toBeLessThan(between);
  expect(boundBy(between)).toContain(`is reached: the bundles with their bands weigh ${whole} kg.`);
  expect(boundBy(whole + 0.01)).not.toContain('is reached');
});

test('what is passed by more than a hundredth is told with by how much, of the ballast and of a target', () => {
  const whole = bundleMassOf(plan);
  expect(boundBy(whole / 1.02)).toContain(`weigh ${whole} kg, passed by less than a bundle.`);
  expect(boundBy(whole / 1.005)).toContain(`weigh ${whole} kg.`);
  const filled = plan.voids.find(({ mass }) => mass > 0)!;
  const withTarget = (target: number): string => {
    const voids = job.voids.map((space) => (space.void === filled.void ? { ...space, target } : space));
    return bindsOf(problemOf({ ...job, voids }), plan, null).join(' ');
  };
  const much = filled.mass / 1.2;
  expect(withTarget(much)).toContain(
    `${filled.void} has its target: ${filled.mass} kg of ${much} kg wanted, passed by less than a bundle.`,
  );
  expect(withTarget(filled.mass)).toContain(`${filled.void} has its target of ${filled.mass} kg.`);
});

test('what a void may carry is held against its own lift limit, and room binds in none that is empty or has room for a run', async () => {
  const stated = jobSchema.parse({
    format: 'kentledge-job/1',
    name: 'Two limits',
    pile: [{ lot: 'A', section: { shape: 'flat', width: 50, thickness: 20 }, length: 2100, count: 30 }],
    aims: { kgPerHour: 0 },
    voids: [
      { void: 'V1', length: 400, width: 150, height: 100, limit: 60 },
      { void: 'V2', length: 500, width: 120, height: 60, limit: 5, most: 60 },
    ],
  });
  const result = await planJob(stated, { effort: 'quick', jobDigest: `sha256:${'0'.repeat(64)}` });
  if (result.kind !== 'plan') throw new Error('nothing is placed');
  const { plan: made } = result;
  const said = (lines: readonly string[] = []) => lines.filter((line) => /V[12]/.test(line));
  expect(said(made.binds)).toEqual(['Room binds in V1, V2: more height, width or length would take more steel.']);
  const prices = { groups: [9, 9] } as unknown as Parameters<typeof bindsOf>[2];
  const runs = made.runs.filter((run) => run.void === 'V1');
  const inV1 = 'Room binds in V1: more height, width or length would take more steel.';
  expect(said(bindsOf(problemOf(stated), { ...made, runs }, prices))).toEqual([inV1]);
  // Room left at two ends takes no run as long as the one between them; all of it at one end does.
  const withRun = (from: number, to: number) => {
    const one = { ...made.runs.find((run) => run.void === 'V2')!, from, to };
    return said(bindsOf(problemOf(stated), { ...made, runs: [...runs, one] }, prices));
  };
  expect(withRun(140, 360)).toEqual(['Room binds in V1, V2: more height, width or length would take more steel.']);
  expect(withRun(8, 228)).toEqual([inV1]);
  // Across, the way along which runs lie is the breadth.
  const turned = stated.voids.map((own) => ({ ...own, axis: 'either' as const, length: own.width, width: own.length }));
  const across = made.voids.map((told) => ({ ...told, axis: 'athwartships' as const }));
  const lines = bindsOf(problemOf({ ...stated, voids: turned }), { ...made, voids: across }, prices);
  expect(said(lines)).toEqual(['Room binds in V1, V2: more height, width or length would take more steel.']);
});

test('lots of which no bar is left are told in one sentence, a pile used up as such', () => {
  const used = (kept: string[]) => {
    const lots = job.pile.map((lot) => ({ ...lot, lengths: undefined, length: 2000, count: 1 }));
    const bars = lots.filter(({ lot }) => !kept.includes(lot)).map(({ lot }) => ({ ...plan.bars[0]!, lot }));
    const lines = bindsOf(problemOf({ ...job, pile: lots }), { ...plan, bars }, null);
    return lines.filter((line) => line.startsWith('No bar is left'));
  };
  const names = job.pile.map(({ lot }) => lot);
  expect(names.length).toBeGreaterThan(2);
  expect(used([])).toEqual([expect.stringContaining('No bar is left of the pile: without more steel')]);
  expect(used([names[0]!])).toEqual([`No bar is left of lots ${names.slice(1).join(', ')}.`]);
  expect(used(names.slice(1))).toEqual([`No bar is left of lot ${names[0]}.`]);
  expect(used(names)).toEqual([]);
});
