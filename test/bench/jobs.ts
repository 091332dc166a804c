/**
 * Families of random jobs, seeded: what a planner must stand, with every field of the format that boxes can have, and a
 * scaled family whose size is chosen. All are valid jobs as written, before defaults.
 */
import type { JobInput } from '../../src/job/job.ts';
import { massPerMetre, outerSize, type Section } from '../../src/job/section.ts';
import { type Dice, throwDice } from './dice.ts';
import { inFractions } from './inches.ts';
import { addShape } from './shapes.ts';

type LotInput = JobInput['pile'][number];
type VoidInput = JobInput['voids'][number];

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';
const COATINGS = ['zinc', 'bare', 'paint', 'unknown'] as const;

/** A section of any of the nine shapes, of a size that one person handles. */
function randomSection(dice: Dice): Section {
  switch (dice.whole(1, 9)) {
    case 1:
      return { shape: 'round', diameter: dice.whole(10, 45) };
    case 2:
      return { shape: 'square', side: dice.whole(10, 40) };
    case 3:
      return { shape: 'flat', width: dice.whole(25, 80), thickness: dice.whole(6, 24) };
    case 4:
      return { shape: 'hexagon', acrossFlats: dice.stepped(13, 41, 0.5) };
    case 5:
      return { shape: 'deformed', nominal: dice.pick([8, 10, 12, 16, 20, 25, 32]) };
    case 6: {
      const leg = dice.whole(25, 60);
      const angle = { shape: 'angle' as const, leg, thickness: dice.whole(3, 8) };
      return dice.chance(0.4) ? { ...angle, otherLeg: dice.whole(20, 80) } : angle;
    }
    case 7:
      return { shape: 'tube', diameter: dice.stepped(21.3, 60.3, 1), wall: dice.stepped(2, 6, 0.2) };
    case 8:
      return { shape: 'box', width: dice.whole(20, 60), height: dice.whole(20, 60), wall: dice.whole(2, 5) };
    default:
      return { shape: 'other', width: dice.whole(15, 60), height: dice.whole(15, 45) };
  }
}

function randomSpoiled(dice: Dice, length: number): { from: number; to: number }[] {
  const spans = [];
  for (let n = dice.whole(1, 3); n > 0; n--) {
    const from = dice.whole(0, length - 100);
    spans.push({ from, to: from + dice.pick([1, 2, 15, 40, 90]) });
  }
  return spans;
}

/** Kilograms per metre of a bar that fills its outer size. */
function solidMass(section: Section): number {
  const { across, up } = outerSize(section);
  return across * up * 0.00785;
}

function randomLot(dice: Dice, name: string, section: Section, count: number): LotInput {
  const length = dice.whole(900, 6400);
  const lot: LotInput = { lot: name, section };
  if (dice.chance(0.25)) {
    lot.lengths = Array.from({ length: count }, () => dice.stepped(length * 0.7, length, 0.5));
  } else {
    lot.length = length;
    if (count > 1 || dice.chance(0.5)) lot.count = count;
  }
  const computed = massPerMetre(section, 7850);
  const weighed = computed ?? solidMass(section) * dice.stepped(0.4, 0.85, 0.05);
  if (computed === null || dice.chance(0.25))
    lot.massPerMetre = Math.round(weighed * dice.stepped(0.9, 1.06, 0.01) * 1000) / 1000;
  if (dice.chance(0.8)) lot.coating = dice.pick(COATINGS);
  if (dice.chance(0.3)) lot.spoiled = randomSpoiled(dice, Math.min(...(lot.lengths ?? [length])));
  if (dice.chance(0.3)) lot.squaring = dice.stepped(0, 12, 0.5);
  if (dice.chance(0.6)) lot.bow = dice.stepped(0, 5, 0.5);
  return lot;
}

/** `sections` sections, each in one or more lots (two lots of one section may differ in mass per metre), `bars` bars in all. */
function randomPile(dice: Dice, sections: number, lots: number, bars: number): LotInput[] {
  const kinds = Array.from({ length: sections }, () => randomSection(dice));
  const shares = Array.from({ length: lots }, () => dice.whole(1, 10));
  const sum = shares.reduce((total, share) => total + share, 0);
  return shares.map((share, n) => {
    const name = n < 26 ? LETTERS[n]! : `${LETTERS[Math.floor(n / 26) - 1]}${LETTERS[n % 26]}`;
    const section = n < sections ? kinds[n]! : dice.pick(kinds);
    return randomLot(dice, name, section, Math.max(1, Math.round((bars * share) / sum)));
  });
}

function randomVoid(dice: Dice, name: string, share: number): VoidInput {
  const place: VoidInput = {
    void: name,
    length: dice.whole(300, Math.round(2200 * share)),
    width: dice.whole(120, Math.round(600 * share)),
    height: dice.whole(80, Math.round(300 * share)),
    origin: { x: dice.stepped(0.2, 8, 0.05), y: dice.stepped(-1, 1, 0.05), z: dice.stepped(0.1, 0.8, 0.01) },
  };
  if (dice.chance(0.3)) place.axis = 'athwartships';
  if (dice.chance(0.5)) {
    place.clear = { ends: dice.whole(0, 15), sides: dice.whole(0, 10), top: dice.whole(0, 25) };
    place.dunnage = dice.whole(0, 20);
    place.gap = { runs: dice.whole(0, 15), across: dice.whole(0, 8) };
  }
  if (dice.chance(0.6)) place.limit = dice.stepped(4, 25, 0.5);
  if (dice.chance(0.3)) place.target = dice.whole(10, 200);
  if (dice.chance(0.2)) place.most = (place.target ?? 0) + dice.whole(10, 120);
  if (dice.chance(0.5)) place.rank = dice.whole(1, 5);
  return place;
}

function randomSaw(dice: Dice): NonNullable<JobInput['saw']> {
  return {
    kerf: dice.pick([0, 1.3, 2.5, 3, 3.2]),
    squaring: dice.pick([0, 0, 3, 5.5]),
    tolerance: dice.pick([0, 1, 2, 3]),
    shortestPiece: dice.pick([100, 150, 200]),
    keepFrom: dice.pick([500, 900, 1200]),
    gang: dice.pick([1, 1, 2, 4]),
    minutesPerCut: dice.pick([0, 1, 2, 3]),
    minutesPerStop: dice.pick([0, 5, 10]),
  };
}

function randomRules(dice: Dice): NonNullable<JobInput['bundle']> {
  return {
    limit: dice.stepped(4, 25, 0.5),
    wrap: dice.pick([0, 2, 3, 4.5]),
    wrapping: dice.pick([0, 0.05, 0.12]),
    endCover: dice.pick([0, 2, 5]),
    maxBars: dice.pick([1, 3, 12, 30]),
    minutesPerBundle: dice.pick([0, 4, 6]),
    ...(dice.chance(0.5) ? { becket: { cord: dice.pick([6, 8, 10]), grip: 150 } } : {}),
  };
}

function randomAims(dice: Dice, voids: VoidInput[]): NonNullable<JobInput['aims']> {
  const aims: NonNullable<JobInput['aims']> = { kgPerHour: dice.pick([0, 1, 5, 5, 12]) };
  if (dice.chance(0.4)) aims.ballast = dice.whole(20, 120 * voids.length);
  if (dice.chance(0.3)) aims.stopsAtMost = dice.whole(1, 6);
  if (dice.chance(0.35)) {
    const x = (dice.pick(voids).origin?.x ?? 0) + dice.stepped(0, 1, 0.1);
    const y = dice.stepped(-0.4, 0.4, 0.05);
    aims.centre = {};
    if (dice.chance(0.8)) aims.centre.x = [x - 0.3, x + 0.3];
    if (dice.chance(0.6)) aims.centre.y = [y - 0.1, y + 0.1];
    if (dice.chance(0.2)) aims.centre.z = [0.1, 0.6];
  }
  return aims;
}

export interface RandomJobOptions {
  /** Also station readings, keep-outs, openings, joints and either-way voids. */
  shapes?: boolean;
  /** Half the pile and voids of at most 0.6 times the size each way: for tests that must be quick. */
  small?: boolean;
  /** Measured in fractions of an inch, or in tenths of a millimetre. */
  fractions?: boolean;
}

/** The job of a seed: 1 to 6 voids, 1 to 4 sections, up to 60 bars, any of the fields a box job may have. */
export function randomJob(seed: number, options: RandomJobOptions = {}): JobInput {
  const dice = throwDice(seed);
  const sections = dice.whole(1, 4);
  const lots = sections + dice.whole(0, 3);
  const job: JobInput = {
    format: 'kentledge-job/1',
    name: `Random job ${seed}`,
    pile: randomPile(dice, sections, lots, dice.whole(lots, options.small ? 30 : 60)),
    voids: Array.from({ length: dice.whole(1, 6) }, (_, n) => randomVoid(dice, `V${n + 1}`, options.small ? 0.6 : 1)),
  };
  if (dice.chance(0.2)) job.steel = { density: dice.pick([7200, 7800, 7950]) };
  if (dice.chance(0.7)) job.saw = randomSaw(dice);
  if (dice.chance(0.7)) job.bundle = randomRules(dice);
  if (dice.chance(0.8)) job.aims = randomAims(dice, job.voids);
  if (dice.chance(0.4)) {
    job.vessel = {
      displacement: 5000,
      displacementMost: 5600,
      lcf: 4,
      waterlineLength: 8.5,
      kgPerCm: 150,
      hull: 'wood',
      // By the seed, so that the dice fall as they did.
      ...(seed % 2 === 0 ? { list: seed % 4 === 0 ? 1 : -1.5 } : {}),
    };
    if (job.aims && dice.chance(0.5)) job.aims.spread = dice.stepped(0.5, 2.5, 0.1);
  }
  const shaped = options.shapes ? addShape(dice, job) : job;
  return options.fractions ? inFractions(shaped, seed) : shaped;
}

export interface Scale {
  voids: number;
  sections: number;
  lots: number;
  bars: number;
  seed?: number;
}

/** A job of a chosen size, for timing: limits of 6 to 14 kg, the default labour, every kind of lot. */
export function scaledJob(scale: Scale): JobInput {
  const dice = throwDice(scale.seed ?? 1);
  const pile = randomPile(dice, scale.sections, scale.lots, scale.bars);
  const voids = Array.from({ length: scale.voids }, (_, n) => ({
    void: `V${n + 1}`,
    length: dice.whole(600, 1500),
    width: dice.whole(220, 420),
    height: dice.whole(110, 200),
    origin: { x: 1 + 7 * ((n + 0.5) / scale.voids), y: dice.pick([-0.4, 0, 0.4]), z: 0.35 },
    limit: dice.stepped(6, 14, 0.5),
    rank: dice.whole(1, 3),
  }));
  return {
    format: 'kentledge-job/1',
    name: `Scaled job: ${scale.voids} voids, ${scale.sections} sections, ${scale.lots} lots, ${scale.bars} bars`,
    pile,
    saw: { kerf: 2.5, squaring: 2 },
    bundle: { wrapping: 0.05 },
    voids,
  };
}

/** The sizes that timing runs through, from a small refit to 60 voids and 2,000 bars. */
export const SCALES: readonly Scale[] = [
  { voids: 4, sections: 1, lots: 2, bars: 40 },
  { voids: 8, sections: 4, lots: 7, bars: 100 },
  { voids: 15, sections: 6, lots: 14, bars: 300 },
  { voids: 30, sections: 8, lots: 24, bars: 800 },
  { voids: 60, sections: 12, lots: 40, bars: 2000 },
];
