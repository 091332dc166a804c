/**
 * A small job and a plan for it that is right, made by hand rules: for tests of what reads, checks and draws plans. It
 * has a box with a keep-out and an opening, an athwartships void of stations, joints, nested and grid bundles, tiers.
 */
import { type Job, type JobInput, jobSchema } from '../../src/job/job.ts';
import type { Section } from '../../src/job/section.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';

export const TRIAL_DIGEST = `sha256:${'0'.repeat(64)}`;

const SQUARE: Section = { shape: 'square', side: 20 };
const FLAT: Section = { shape: 'flat', width: 40, thickness: 15 };
const ROUND: Section = { shape: 'round', diameter: 24 };

export function trialJobInput(): JobInput {
  return {
    format: 'kentledge-job/1',
    name: 'Trial',
    pile: [
      { lot: 'A', section: SQUARE, length: 3000, count: 6, squaring: 5, bow: 1, spoiled: [{ from: 1400, to: 1450 }] },
      { lot: 'B', section: ROUND, lengths: [2500, 2500, 2490], massPerMetre: 3.5, bow: 0, coating: 'zinc' },
      { lot: 'C', section: FLAT, length: 2000, count: 4, coating: 'paint' },
      { lot: 'D', section: SQUARE, length: 700, count: 2, bow: 3 },
    ],
    saw: { keepFrom: 500 },
    bundle: { limit: 12, wrap: 2, wrapping: 0.05, maxBars: 6, joints: { shortest: 180, share: 0.34 } },
    voids: [
      {
        void: 'V1',
        name: 'Abaft the mast step',
        length: 1000,
        width: 260,
        height: 150,
        origin: { x: 4, y: 0.1, z: 0.2 },
        rank: 2,
        target: 75,
        most: 90,
        opening: { along: 380, across: 200, endFirst: true, deck: 20 },
        keepOut: [{ what: 'keel bolt', along: [560, 600], across: [-20, 20], up: [0, 40] }],
      },
      {
        void: 'V2',
        axis: 'athwartships',
        length: 700,
        width: 300,
        height: 160,
        origin: { x: 5, y: -0.35, z: 0.15 },
        limit: 9,
        stations: [
          {
            along: 700,
            at: [
              { up: 6, from: -100, to: 110 },
              { up: 160, from: -150, to: 150 },
            ],
          },
          {
            along: 0,
            at: [
              { up: 20, from: -110, to: 90 },
              { up: 160, from: -160, to: 140 },
            ],
          },
          {
            along: 350,
            at: [
              { up: 0, from: -105, to: 100 },
              { up: 80, from: -130, to: 125 },
              { up: 160, from: -155, to: 150 },
            ],
          },
        ],
      },
      { void: 'V3', length: 400, width: 100, height: 60, axis: 'either' },
    ],
    vessel: { displacement: 8000, displacementMost: 9000, lcf: 4.7 },
    aims: { ballast: 120, centre: { x: [4, 5.5] }, spread: 2, stopsAtMost: 6 },
  };
}

interface Wanted {
  bundle: string;
  void: string;
  run: number;
  tier: number;
  section: Section;
  length: number;
  arrangement: 'grid' | 'nested';
  columns: number[];
  onEdge?: boolean;
  at: [along: number, across: number, up: number];
  /** Slots that are jointed, and the lengths of their pieces. */
  joints?: Record<number, number[]>;
}

/** The bundles of the trial plan: V1 has two runs of two tiers, V2 one run over a bottom that falls away. */
const WANTED: Wanted[] = [
  {
    bundle: 'V1-01',
    void: 'V1',
    run: 1,
    tier: 1,
    section: SQUARE,
    length: 500,
    arrangement: 'grid',
    columns: [3, 3],
    at: [8, -120, 12],
  },
  {
    bundle: 'V1-02',
    void: 'V1',
    run: 1,
    tier: 1,
    section: SQUARE,
    length: 500,
    arrangement: 'grid',
    columns: [3, 2],
    at: [8, -48, 12],
  },
  {
    bundle: 'V1-03',
    void: 'V1',
    run: 1,
    tier: 2,
    section: ROUND,
    length: 499,
    arrangement: 'nested',
    columns: [3, 2],
    at: [8, -100, 57],
  },
  {
    bundle: 'V1-04',
    void: 'V1',
    run: 2,
    tier: 1,
    section: FLAT,
    length: 320,
    arrangement: 'grid',
    columns: [2],
    at: [610, -110, 12],
  },
  {
    bundle: 'V1-05',
    void: 'V1',
    run: 2,
    tier: 1,
    section: FLAT,
    length: 320,
    arrangement: 'grid',
    columns: [2],
    at: [610, 10, 12],
  },
  {
    bundle: 'V1-06',
    void: 'V1',
    run: 2,
    tier: 2,
    section: FLAT,
    length: 320,
    arrangement: 'grid',
    columns: [2],
    onEdge: true,
    at: [610, -60, 32],
  },
  {
    bundle: 'V2-01',
    void: 'V2',
    run: 1,
    tier: 1,
    section: SQUARE,
    length: 678,
    arrangement: 'grid',
    columns: [3],
    joints: { 1: [400, 277] },
    at: [8, -90, 32],
  },
  {
    bundle: 'V2-02',
    void: 'V2',
    run: 1,
    tier: 1,
    section: SQUARE,
    length: 678,
    arrangement: 'grid',
    columns: [3],
    at: [8, -15, 32],
  },
];

/** The trial job with its defaults and a right plan for it, fresh at every call. */
export function trialPair(): { job: Job; plan: Plan } {
  const job = jobSchema.parse(trialJobInput());
  return { job, plan: planOf(job, structuredClone(WANTED)) };
}

const keyOf = (section: Section): string => Object.values(section).join(' ');

function planOf(job: Job, wanted: Wanted[]): Plan {
  const bars: Plan['bars'] = [];
  const open: { bar: Plan['bars'][number]; ends: number[][]; at: number; first: boolean; lot: Job['pile'][number] }[] =
    [];
  for (const lot of job.pile)
    for (const [i, length] of (lot.lengths ?? new Array<number>(lot.count ?? 1).fill(lot.length!)).entries()) {
      const squaring = lot.squaring ?? job.saw.squaring;
      const [hole] = lot.spoiled;
      const ends = hole
        ? [
            [squaring, hole.from],
            [hole.to, length - squaring],
          ]
        : [[squaring, length - squaring]];
      const bar = { bar: `${lot.lot}-0${i + 1}`, lot: lot.lot, length, pieces: [], remainders: [] };
      open.push({ bar, ends, at: ends[0]![0]!, first: true, lot });
    }
  const perMetre = { A: 3.14, B: 3.5, C: 4.71, D: 3.14 } as Record<string, number>;
  let count = 0;
  let cuts = 0;
  const masses = {
    stockMass: 0,
    placedMass: 0,
    keptMass: 0,
    scrapMass: 0,
    kerfMass: 0,
    squaringMass: 0,
    spoiledMass: 0,
  };

  /** Cuts one piece from the first bar that has room for it. */
  function cut(section: Section, length: number, bundle: string): { piece: string; mass: number } {
    for (const stock of open) {
      if (keyOf(stock.lot.section) !== keyOf(section)) continue;
      while (stock.ends.length > 0) {
        const to = stock.ends[0]![1]!;
        const from = stock.first ? stock.at : stock.at + job.saw.kerf;
        if (from + length > to) {
          closeSpan(stock);
          continue;
        }
        const piece = `p${String(++count).padStart(4, '0')}`;
        stock.bar.pieces.push({ piece, from, to: from + length, bundle });
        cuts += (stock.first && from > 0 ? 1 : 0) + (from + length < stock.bar.length ? 1 : 0);
        Object.assign(stock, { at: from + length, first: false });
        return { piece, mass: (length * perMetre[stock.bar.lot]!) / 1000 };
      }
    }
    throw new Error(`no bar left for ${length}`);
  }

  function closeSpan(stock: (typeof open)[number]): void {
    const to = stock.ends.shift()![1]!;
    const from = stock.first ? stock.at : Math.min(stock.at + job.saw.kerf, to);
    if (to > from) stock.bar.remainders.push({ from, to, fate: to - from >= job.saw.keepFrom ? 'keep' : 'scrap' });
    Object.assign(stock, { at: stock.ends[0]?.[0] ?? 0, first: true });
  }

  const bundles = wanted.map((want): PlanBundle => {
    const slots: string[][] = [];
    let mass = job.bundle.wrapping;
    for (let slot = 0; slot < want.columns.reduce((sum, n) => sum + n, 0); slot++) {
      const cutPieces = (want.joints?.[slot] ?? [want.length]).map((length) => cut(want.section, length, want.bundle));
      slots.push(cutPieces.map((each) => each.piece));
      mass += cutPieces.reduce((sum, each) => sum + each.mass, 0);
    }
    masses.placedMass += mass - job.bundle.wrapping;
    const order = wanted.filter((other) => other.void === want.void).indexOf(want) + 1;
    const { bundle, run, tier, section, length, arrangement, columns, onEdge = false, at } = want;
    const limit = want.void === 'V2' ? 9 : 12;
    const place = { along: at[0], across: at[1], up: at[2] };
    const size = sizeOf(want);
    return {
      bundle,
      void: want.void,
      run,
      tier,
      order,
      section,
      length,
      arrangement,
      rows: columns.length,
      columns,
      onEdge,
      slots,
      mass: cent(mass),
      limit,
      size,
      at: place,
      becket: 900,
    };
  });
  for (const stock of open) {
    if (stock.bar.pieces.length === 0) continue;
    while (stock.ends.length > 0) closeSpan(stock);
    bars.push(stock.bar);
    const kg = (length: number) => (length * perMetre[stock.bar.lot]!) / 1000;
    const squaring = stock.lot.squaring ?? 0;
    masses.stockMass += kg(stock.bar.length);
    masses.squaringMass += kg(2 * squaring);
    for (const { from, to } of stock.lot.spoiled) masses.spoiledMass += kg(to - from);
    for (const { from, to, fate } of stock.bar.remainders)
      masses[fate === 'keep' ? 'keptMass' : 'scrapMass'] += kg(to - from);
  }
  const { stockMass, placedMass, keptMass, scrapMass, squaringMass, spoiledMass } = masses;
  masses.kerfMass = stockMass - placedMass - keptMass - scrapMass - squaringMass - spoiledMass;
  const stops = new Set(bars.flatMap((bar) => bar.pieces.map((piece) => piece.to - piece.from))).size;
  const minutes = cuts * 2 + stops * 5 + bundles.length * 6;
  const value =
    bundles.reduce((sum, each) => sum + (each.void === 'V1' ? 0.99 : 1) * (each.mass - 0.05), 0) -
    scrapMass / 2 -
    (5 * minutes) / 60;
  const [V1, V2] = ['V1', 'V2'].map((name) => bundles.filter((each) => each.void === name));
  return {
    format: 'kentledge-plan/1',
    job: job.name,
    jobDigest: TRIAL_DIGEST,
    engine: '0.1.0',
    effort: 'steady',
    seed: 1,
    bars,
    bundles,
    runs: [
      { void: 'V1', run: 1, from: 8, to: 514, packing: [12, 12] },
      { void: 'V1', run: 2, from: 610, to: 936, packing: [12, 12] },
      { void: 'V2', run: 1, from: 8, to: 692, packing: [12, 25.7] },
    ],
    voids: [voidOf('V1', V1!), voidOf('V2', V2!), { void: 'V3', mass: 0, bundles: 0, fill: 0, centre: null }],
    totals: {
      ...(Object.fromEntries(Object.entries(masses).map(([key, mass]) => [key, cent(mass)])) as typeof masses),
      bars: bars.length,
      pieces: count,
      cuts,
      stops,
      bundles: bundles.length,
      minutes,
    },
    bound: { value: cent(value), valueAtMost: cent(value) * 1.25, gap: 0.2 },
    centre: centreOf(bundles),
    cautions: [],
  };
}

function sizeOf({ section, length, arrangement, columns, onEdge }: Wanted): PlanBundle['size'] {
  const sag = (section.shape === 'square' ? 3 : section.shape === 'round' ? 0 : 2) * (length / 1000) ** 2;
  const [a, b] =
    section.shape === 'flat' ? (onEdge ? [15, 40] : [40, 15]) : section.shape === 'square' ? [20, 20] : [24, 24];
  const high = arrangement === 'nested' ? b! * (1 + (columns.length - 1) * 0.8660254037844386) : b! * columns.length;
  const half = (size: number) => Math.ceil(2 * size - 1e-9) / 2;
  return { along: length + 6, across: half(Math.max(...columns) * a! + 4 + sag), up: half(high + 4 + sag) };
}

function centreOf(bundles: PlanBundle[]): { x: number; y: number; z: number } {
  let [mass, x, y, z] = [0, 0, 0, 0];
  for (const each of bundles) {
    const [along, across, up] = (['along', 'across', 'up'] as const).map(
      (side) => (each.at[side] + each.size[side] / 2) / 1000,
    );
    mass += each.mass;
    x += each.mass * (each.void === 'V1' ? 4 + along! : 5 + across!);
    y += each.mass * (each.void === 'V1' ? 0.1 + across! : -0.35 + along!);
    z += each.mass * (each.void === 'V1' ? 0.2 + up! : 0.15 + up!);
  }
  const milli = (value: number) => Math.round((value / mass) * 1000) / 1000;
  return { x: milli(x), y: milli(y), z: milli(z) };
}

function voidOf(name: string, bundles: PlanBundle[]): Plan['voids'][number] {
  const mass = cent(bundles.reduce((sum, each) => sum + each.mass, 0));
  return { void: name, mass, bundles: bundles.length, fill: 0.4, centre: centreOf(bundles) };
}

function cent(value: number): number {
  return Math.round(value * 100) / 100;
}
