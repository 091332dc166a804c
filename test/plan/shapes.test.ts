/** Whole plans of voids that are no boxes: sampled point by point, and against the same voids said in other words. */
import { describe, expect, test } from 'vitest';
import type { Job, JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { type Dice, throwDice } from '../bench/dice.ts';
import { randomJob } from '../bench/jobs.ts';

type VoidInput = JobInput['voids'][number];

async function planned(input: JobInput): Promise<{ job: Job; plan: Plan; digest: string } | null> {
  const read = readJobValue(input);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const { job, digest } = read.value;
  const result = await planJob(job, { effort: 'quick', seed: 1, stops: 'free', jobDigest: digest });
  return result.kind === 'plan' ? { job, plan: result.plan, digest } : null;
}

/** The sides of a void at a point along and up, by the words of the format: linear in up, then linear in along. */
function sidesAt(place: Job['voids'][number], along: number, up: number): { from: number; to: number; bottom: number } {
  if (!place.stations) return { from: -place.width / 2, to: place.width / 2, bottom: 0 };
  const stations = [...place.stations].sort((p, q) => p.along - q.along);
  const next = Math.max(
    1,
    stations.findIndex((station) => station.along >= along),
  );
  const readings = [stations[next - 1]!, stations[next]!].map(({ at }) => {
    const sorted = [...at].sort((p, q) => p.up - q.up);
    const above = sorted.findIndex((reading) => reading.up >= up);
    const q = sorted[above < 0 ? sorted.length - 1 : above]!;
    const p = sorted[Math.max(0, (above < 0 ? sorted.length : above) - 1)]!;
    const share = q.up > p.up ? Math.min(1, Math.max(0, (up - p.up) / (q.up - p.up))) : 1;
    const mix = (side: 'from' | 'to') => p[side] * (1 - share) + q[side] * share;
    return { from: mix('from'), to: mix('to'), bottom: sorted[0]!.up };
  });
  const share = (along - stations[next - 1]!.along) / (stations[next]!.along - stations[next - 1]!.along);
  const mix = (side: 'from' | 'to' | 'bottom') => readings[0]![side] * (1 - share) + readings[1]![side] * share;
  return { from: mix('from'), to: mix('to'), bottom: mix('bottom') };
}

/** The keep-outs of a void as it was laid. */
function keepOutsOf(place: Job['voids'][number], plan: Plan): Job['voids'][number]['keepOut'] {
  const axis = plan.voids.find((own) => own.void === place.void)?.axis;
  if (place.axis !== 'either' || axis === 'fore-and-aft') return place.keepOut;
  return place.keepOut.map((own) => ({
    ...own,
    along: [own.across[0] + place.width / 2, own.across[1] + place.width / 2],
    across: [own.along[0] - place.length / 2, own.along[1] - place.length / 2],
  }));
}

/** What is wrong with a point at random in a bundle: outside its void, its clearances, or in something to stay off. */
function wrongAt(dice: Dice, place: Job['voids'][number], plan: Plan, { at, size }: PlanBundle): string | null {
  const [along, across, up] = [
    at.along + dice.stepped(0, 1, 0.001) * size.along,
    at.across + dice.stepped(0, 1, 0.001) * size.across,
    at.up + dice.stepped(0, 1, 0.001) * size.up,
  ];
  const turned = plan.voids.find((own) => own.void === place.void)?.axis === 'athwartships' && place.axis === 'either';
  const box = turned ? { ...place, length: place.width, width: place.length } : place;
  const { from, to, bottom } = sidesAt(box, along, up);
  const { ends, sides, top } = place.clear;
  if (along < ends - 1e-6 || along > box.length - ends + 1e-6) return `along ${along}`;
  if (up < bottom + place.dunnage - 1e-6 || up > place.height - top + 1e-6) return `up ${up} of ${bottom}`;
  if (across < from + sides - 1e-6 || across > to - sides + 1e-6) return `across ${across} of ${from} to ${to}`;
  for (const { along: a, across: b, up: c, access } of keepOutsOf(place, plan)) {
    const inside = along > a[0] + 1e-6 && along < a[1] - 1e-6 && across > b[0] + 1e-6 && across < b[1] - 1e-6;
    if (inside && up > c[0] + 1e-6 && (access || up < c[1] - 1e-6))
      return `in a keep-out at ${along}, ${across}, ${up}`;
  }
  return null;
}

describe('a random plan of shapes', () => {
  // Together they have every field that random shapes have; most are of one void.
  test.each([27, 107, 155])('lies inside the void at every point, and checks clean (seed %i)', async (seed) => {
    const made = await planned(randomJob(seed, { shapes: true, small: true }));
    if (!made) throw new Error('nothing is placed');
    const { job, plan, digest } = made;
    expect(checkPlan(job, plan, digest)).toEqual([]);
    expect(plan.bound.valueAtMost!).toBeGreaterThanOrEqual(plan.bound.value);
    const dice = throwDice(seed);
    const places = new Map(job.voids.map((place) => [place.void, place]));
    for (const bundle of plan.bundles) {
      for (let i = 0; i < 60; i++) expect(wrongAt(dice, places.get(bundle.void)!, plan, bundle)).toBeNull();
    }
  });
});

/** A small bilge with a keel bolt in it, wider at its fore end and above. */
const BILGE: VoidInput = {
  void: 'V1',
  length: 640,
  width: 220,
  height: 110,
  limit: 7,
  keepOut: [{ what: 'keel bolt', along: [330, 380], across: [-30, 15], up: [0, 40] }],
  stations: [
    {
      along: 0,
      at: [
        { up: 0, from: -70, to: 82 },
        { up: 110, from: -98, to: 92 },
      ],
    },
    {
      along: 300,
      at: [
        { up: 4, from: -78, to: 84 },
        { up: 60, from: -96, to: 90 },
        { up: 110, from: -104, to: 96 },
      ],
    },
    {
      along: 640,
      at: [
        { up: 8, from: -84, to: 90 },
        { up: 110, from: -108, to: 104 },
      ],
    },
  ],
};

const jobOf = (...voids: VoidInput[]): JobInput => ({
  format: 'kentledge-job/1',
  name: 'A small bilge',
  pile: [
    { lot: 'A', section: { shape: 'round', diameter: 25 }, length: 2400, count: 10 },
    { lot: 'B', section: { shape: 'square', side: 20 }, length: 1900, count: 12 },
  ],
  voids,
  aims: { kgPerHour: 2 },
});

describe('a bilge that takes nothing', () => {
  const { stations: _, keepOut: __, ...box } = BILGE;
  test.each([
    ['an opening that nothing passes', { opening: { along: 20, across: 20, endFirst: true } }, /passes its opening/],
    [
      'bearers side by side',
      { bearers: [290, 300].map((along) => ({ along, width: 8 })) },
      /rests on two of its bearers/,
    ],
  ] as [string, Partial<VoidInput>, RegExp][])('is told so: %s', async (_name, parts, why) => {
    const read = readJobValue(jobOf({ ...box, ...parts }));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const result = await planJob(read.value.job, { effort: 'quick', seed: 1, jobDigest: read.value.digest });
    expect(result.kind === 'nothing' && result.reasons[0]!.why).toMatch(why);
  });
});

test('bars that go in end first are no longer than the deck beside their opening lets under', async () => {
  const place = (middle?: number): VoidInput => ({
    void: 'V1',
    length: 900,
    width: 220,
    height: 110,
    limit: 7,
    opening: { along: 300, across: 200, endFirst: true, at: middle === undefined ? undefined : { along: middle } },
  });
  const long = (middle?: number): JobInput => ({ ...jobOf(place(middle)), saw: { shortestPiece: 700 } });
  const anywhere = await planned(long());
  const beside = await planned(long(150));
  for (const made of [anywhere, beside]) expect(checkPlan(made!.job, made!.plan, made!.digest)).toEqual([]);
  // From one edge of an opening over the middle 600 mm lie before the end, and 700 mm at that depth reach over 690.
  expect(await planned(long(450))).toBeNull();
  // The checker knows it by itself.
  const over = { ...beside!.job, voids: [{ ...beside!.job.voids[0]! }] };
  over.voids[0]!.opening = { ...over.voids[0]!.opening!, at: { along: 450, across: 0 } };
  expect(checkPlan(over, beside!.plan).map(({ code }) => code)).toContain('opening');
});

test('bars that go in end first are no longer than a run that stands already lets under the deck', async () => {
  const stands = { along: [900, 1500], across: [-110, 110], up: [0, 110], access: false };
  const long = (keepOut: object[]): JobInput => ({
    ...jobOf({
      void: 'V1 rest',
      length: 1500,
      width: 220,
      height: 110,
      limit: 7,
      opening: { along: 300, across: 200, endFirst: true, at: { along: 450 } },
      keepOut: keepOut as VoidInput['keepOut'],
    }),
    saw: { shortestPiece: 700 },
  });
  const whole = await planned(long([]));
  expect(checkPlan(whole!.job, whole!.plan, whole!.digest)).toEqual([]);
  // From one edge of the opening 1200 mm lie before the end of the void, and 600 before the run: 700 mm reach over 690.
  expect(await planned(long([stands]))).toBeNull();
  // Over a run that leaves a bundle's height there is a way.
  const low = await planned(long([{ ...stands, up: [0, 40] }]));
  expect(checkPlan(low!.job, low!.plan, low!.digest)).toEqual([]);
  // The checker knows it by itself.
  const after = {
    ...whole!.job,
    voids: [{ ...whole!.job.voids[0]!, keepOut: long([stands]).voids[0]!.keepOut as never }],
  };
  expect(checkPlan(after, whole!.plan).map(({ code }) => code)).toContain('opening');
});

/** Works out at the first asking what every later one is given, too. */
function once<T>(work: () => Promise<T>): () => Promise<T> {
  let known: Promise<T> | null = null;
  return () => {
    known ??= work();
    return known;
  };
}

/** What a plan says but for its job's digest. */
const told = (made: { plan: Plan } | null) => made && { ...made.plan, jobDigest: '' };

describe('the same bilge', () => {
  const asRead = once(() => planned(jobOf(BILGE)));

  test('gives the same plan whatever the order of its stations and readings', async () => {
    const stations = [...BILGE.stations!].reverse().map(({ along, at }) => ({ along, at: [...at!].reverse() }));
    const plan = told(await asRead());
    expect(plan!.bundles.length).toBeGreaterThan(4);
    expect(told(await planned(jobOf({ ...BILGE, stations })))).toEqual(plan);
  });

  test('seen in a mirror holds as much, or nearly', async () => {
    const mirror = ([from, to]: [number, number]): [number, number] => [-to, -from];
    const mirrored: VoidInput = {
      ...BILGE,
      keepOut: BILGE.keepOut!.map((own) => ({ ...own, across: mirror(own.across as [number, number]) })),
      stations: BILGE.stations!.map(({ along, at }) => ({
        along,
        at: at!.map(({ up, from, to }) => ({ up, from: -to, to: -from })),
      })),
    };
    const [plan, other] = [await asRead(), await planned(jobOf(mirrored))];
    expect(Math.abs(other!.plan.bound.value / plan!.plan.bound.value - 1)).toBeLessThan(0.02);
    expect(Math.abs(other!.plan.bound.valueAtMost! / plan!.plan.bound.valueAtMost! - 1)).toBeLessThan(0.005);
  });

  test('that is a box gives the plan of the box', async () => {
    const { stations: _, keepOut: __, ...box } = BILGE;
    const at = [0, 110].map((up) => ({ up, from: -110, to: 110 }));
    const said = { ...box, width: 260, stations: [0, 250, 640].map((along) => ({ along, at })) };
    expect(told(await planned(jobOf(said)))).toEqual(told(await planned(jobOf(box))));
  });

  test('open either way is laid the better of the two', async () => {
    const { stations: _, keepOut: __, ...box } = BILGE;
    const ways = ['fore-and-aft', 'athwartships', 'either'] as const;
    const wide = { ...box, length: 320, width: 560 };
    const turned = { ...box, length: 560, width: 320, axis: ways[1] };
    const along = await planned(jobOf({ ...wide, axis: ways[0] }));
    const across = await planned(jobOf(turned));
    const either = await planned(jobOf({ ...wide, axis: ways[2] }));
    const best = Math.max(along!.plan.bound.value, across!.plan.bound.value);
    expect(either!.plan.bound.value).toBeGreaterThan(0.97 * best);
    expect(['fore-and-aft', 'athwartships']).toContain(either!.plan.voids[0]!.axis);
  });
});
