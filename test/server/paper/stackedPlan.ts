/** Jobs of box voids filled with like bundles, of any number, with right plans for them; for papers long and short. */
import { type Job, jobSchema } from '../../../src/job/job.ts';
import type { Plan, PlanBar, PlanBundle } from '../../../src/plan/plan.ts';

export interface Stack {
  voids: number;
  runs: number;
  tiers: number;
  across: number;
  /** Names to be printed; default plain ones. */
  job?: string;
  lot?: string;
  void?: (n: number) => string;
  name?: (n: number) => string;
  what?: string;
}

const LENGTH = 300;
const ALONG = LENGTH + 2 + 4;
const SIDE = 25;
const ACROSS = 2 * SIDE + 4;
const UP = SIDE + 4;
const PER_METRE = 5;
const BAR = 6000;
const KERF = 3;
const PER_BAR = Math.floor((BAR + KERF) / (LENGTH + KERF));
const BUNDLE_MASS = (2 * LENGTH * PER_METRE) / 1000;

const cent = (value: number): number => Math.round(value * 100) / 100;
const milli = (value: number): number => Math.round(value * 1000) / 1000;

/** Two squares a bundle, one bundle length, `runs` × `tiers` × `across` bundles in each of the voids. */
export function stackedPair(stack: Stack): { job: Job; plan: Plan } {
  const perVoid = stack.runs * stack.tiers * stack.across;
  const pieces = 2 * perVoid * stack.voids;
  const bars = Math.ceil(pieces / PER_BAR);
  const lot = stack.lot ?? 'A';
  const mark = (v: number): string => stack.void?.(v) ?? `V${v}`;
  const job = jobSchema.parse({
    format: 'kentledge-job/1',
    name: stack.job ?? 'Stacked',
    pile: [
      { lot, section: { shape: 'square', side: SIDE }, length: BAR, count: bars, massPerMetre: PER_METRE, bow: 0 },
    ],
    bundle: { wrap: 2 },
    aims: { kgPerHour: 0 },
    voids: Array.from({ length: stack.voids }, (_, v) => ({
      void: mark(v + 1),
      name: stack.name?.(v + 1) ?? `Bay ${v + 1}`,
      length: 16 + stack.runs * ALONG + (stack.runs - 1) * 8 + 120,
      width: 10 + stack.across * ACROSS + (stack.across - 1) * 4,
      height: 24 + stack.tiers * UP,
      origin: { x: 1 + Math.floor(v / 2), y: v % 2 === 0 ? -0.4 : 0.4, z: 0.2 },
      keepOut: [
        {
          what: stack.what ?? 'seacock',
          along: [
            16 + stack.runs * ALONG + (stack.runs - 1) * 8 + 60,
            16 + stack.runs * ALONG + (stack.runs - 1) * 8 + 90,
          ],
          across: [-15, 15],
          up: [0, 40],
        },
      ],
    })),
  });
  const bundles = job.voids.flatMap((space, v) => bundlesOf(stack, space.void, v * perVoid, space.width));
  return { job, plan: planOf(job, stack, bundles, barsOf(bundles, lot)) };
}

function bundlesOf(stack: Stack, space: string, first: number, width: number): PlanBundle[] {
  const bundles: PlanBundle[] = [];
  for (let run = 1; run <= stack.runs; run += 1)
    for (let tier = 1; tier <= stack.tiers; tier += 1)
      for (let i = 0; i < stack.across; i += 1) {
        const order = bundles.length + 1;
        const piece = (k: number): string => `p${String(2 * (first + order - 1) + k).padStart(4, '0')}`;
        bundles.push({
          bundle: `${space}-${String(order).padStart(2, '0')}`,
          void: space,
          run,
          tier,
          order,
          section: { shape: 'square', side: SIDE },
          length: LENGTH,
          arrangement: 'grid',
          rows: 1,
          columns: [2],
          onEdge: false,
          slots: [[piece(1)], [piece(2)]],
          mass: BUNDLE_MASS,
          limit: 8,
          size: { along: ALONG, across: ACROSS, up: UP },
          at: {
            along: 8 + (run - 1) * (ALONG + 8),
            across: -width / 2 + 5 + i * (ACROSS + 4),
            up: 12 + (tier - 1) * UP,
          },
        });
      }
  return bundles;
}

function barsOf(bundles: PlanBundle[], lot: string): PlanBar[] {
  const cut = bundles.flatMap((bundle) => bundle.slots.flat().map((piece) => ({ piece, bundle: bundle.bundle })));
  const bars: PlanBar[] = [];
  for (let i = 0; i < cut.length; i += PER_BAR) {
    const pieces = cut.slice(i, i + PER_BAR).map((each, k) => {
      const from = k * (LENGTH + KERF);
      return { piece: each.piece, from, to: from + LENGTH, bundle: each.bundle };
    });
    const from = pieces.at(-1)!.to + KERF;
    const fate = BAR - from >= 900 ? ('keep' as const) : ('scrap' as const);
    const bar = `${lot}-${String(bars.length + 1).padStart(2, '0')}`;
    bars.push({ bar, lot, length: BAR, pieces, remainders: from < BAR ? [{ from, to: BAR, fate }] : [] });
  }
  return bars;
}

function planOf(job: Job, stack: Stack, bundles: PlanBundle[], bars: PlanBar[]): Plan {
  const left = (fate: 'keep' | 'scrap'): number =>
    bars.flatMap((bar) => bar.remainders).reduce((sum, r) => sum + (r.fate === fate ? r.to - r.from : 0), 0);
  const kg = (length: number): number => (length * PER_METRE) / 1000;
  const pieces = 2 * bundles.length;
  const cuts = bars.reduce((sum, bar) => sum + bar.pieces.filter((piece) => piece.to < BAR).length, 0);
  const placed = kg(pieces * LENGTH);
  const value = placed - kg(left('scrap')) / 2;
  return {
    format: 'kentledge-plan/1',
    job: job.name,
    jobDigest: `sha256:${'0'.repeat(64)}`,
    engine: '0.1.0',
    effort: 'quick',
    seed: 1,
    bars,
    bundles,
    runs: job.voids.flatMap((space) =>
      Array.from({ length: stack.runs }, (_, r) => {
        const from = 8 + r * (ALONG + 8);
        return { void: space.void, run: r + 1, from, to: from + ALONG, packing: [12, 12] as [number, number] };
      }),
    ),
    voids: job.voids.map((space) => {
      const own = bundles.filter((bundle) => bundle.void === space.void);
      return {
        void: space.void,
        mass: cent(own.length * BUNDLE_MASS),
        bundles: own.length,
        fill: 0.6,
        centre: centreOf(job, own),
      };
    }),
    totals: {
      stockMass: cent(kg(bars.length * BAR)),
      placedMass: cent(placed),
      keptMass: cent(kg(left('keep'))),
      scrapMass: cent(kg(left('scrap'))),
      kerfMass: cent(kg(bars.length * BAR - pieces * LENGTH - left('keep') - left('scrap'))),
      squaringMass: 0,
      spoiledMass: 0,
      bars: bars.length,
      pieces,
      cuts,
      stops: 1,
      bundles: bundles.length,
      minutes: cuts * 2 + 5 + bundles.length * 6,
    },
    bound: { value: cent(value), valueAtMost: null, gap: null },
    centre: centreOf(job, bundles),
    cautions: [],
  };
}

function centreOf(job: Job, bundles: PlanBundle[]): { x: number; y: number; z: number } {
  const origins = new Map(job.voids.map((space) => [space.void, space.origin]));
  const sum = { x: 0, y: 0, z: 0 };
  for (const { void: space, at, size } of bundles) {
    const origin = origins.get(space)!;
    sum.x += origin.x + (at.along + size.along / 2) / 1000;
    sum.y += origin.y + (at.across + size.across / 2) / 1000;
    sum.z += origin.z + (at.up + size.up / 2) / 1000;
  }
  const n = bundles.length;
  return { x: milli(sum.x / n), y: milli(sum.y / n), z: milli(sum.z / n) };
}
