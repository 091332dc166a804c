/**
 * The job file, `kentledge-job/1`: what the user states. Lengths mm, masses kg, vessel coordinates m, angles degrees.
 *
 * The schema parses at the edge and fills in the defaults; inside, a {@link Job} is trusted. `readJob.ts` reads text and
 * reports every fault at once.
 */
import { z } from 'zod';
import { battenSchema, fromBatten } from './batten.ts';
import { handlingSchema, liftRulesSchema } from './handling.ts';
import { holdDownSchema } from './holdDown.ts';
import { label } from './label.ts';
import { sectionSchema } from './section.ts';

export const JOB_FORMAT = 'kentledge-job/1';
/** A job holds no more. */
export const LOTS_AT_MOST = 10_000;
export const VOIDS_AT_MOST = 1000;

const mm = z.number().min(0).max(100_000);
const mmAbove0 = z.number().positive().max(100_000);
const signedMm = z.number().min(-100_000).max(100_000);
const kg = z.number().min(0).max(10_000_000);
const kgAbove0 = z.number().positive().max(10_000_000);
const minutes = z.number().min(0).max(10_000);
/** Wide enough for a figure in mm to be read, and told as one. */
const metres = z.number().min(-100_000).max(100_000);
const range = z.tuple([signedMm, signedMm]);
const metreRange = z.tuple([metres, metres]);

export const spoiledSchema = z.strictObject({ from: mm, to: mm });

export const lotSchema = z.strictObject({
  lot: label,
  section: sectionSchema,
  length: mmAbove0.optional(),
  count: z.int().min(1).max(100_000).optional(),
  lengths: z.array(mmAbove0).min(1).max(100_000).optional(),
  massPerMetre: z.number().positive().max(10_000).optional(),
  coating: z.enum(['zinc', 'bare', 'paint', 'unknown']).default('unknown'),
  spoiled: z.array(spoiledSchema).max(1000).default([]),
  squaring: mm.optional(),
  bow: z.number().min(0).max(100).default(2),
  note: z.string().max(2000).default(''),
});

export const sawSchema = z.strictObject({
  kerf: z.number().min(0).max(100).default(3),
  squaring: mm.default(0),
  tolerance: z.number().min(0).max(50).default(2),
  shortestPiece: z.number().min(1).max(100_000).default(150),
  keepFrom: mm.default(900),
  gang: z.int().min(1).max(100).default(1),
  minutesPerCut: minutes.default(2),
  minutesPerStop: minutes.default(5),
});

const jointsSchema = z.strictObject({ shortest: mmAbove0, share: z.number().min(0).max(1) });

export const bundleRulesSchema = z.strictObject({
  limit: kgAbove0.default(8),
  wrap: z.number().min(0).max(100).default(3),
  wrapping: z.number().min(0).max(10).default(0),
  endCover: z.number().min(0).max(200).default(2),
  maxBars: z.int().min(1).max(1000).default(30),
  minutesPerBundle: minutes.default(6),
  joints: jointsSchema.nullable().default(null),
  /** `sleeve`: the becket has a sleeve to hold it by. Since 0.1.0. */
  becket: z.strictObject({ cord: mmAbove0, grip: mm, sleeve: z.boolean().optional() }).optional(),
});

const statedStationSchema = z.strictObject({
  along: mm,
  /** May be left out where `batten` is given: it is then worked out from that. */
  at: z
    .array(z.strictObject({ up: mm, from: signedMm, to: signedMm }))
    .min(1)
    .max(200)
    .optional(),
  /** The same as it was measured: down from a level batten. Since 0.1.0. */
  batten: battenSchema.optional(),
});

export const stationSchema = statedStationSchema.transform((station, context) => {
  const at = station.at ?? (station.batten && fromBatten(station.batten));
  if (at) return { ...station, at };
  context.addIssue({ code: 'invalid_type', expected: 'array', path: ['at'], input: undefined });
  return z.NEVER;
});

const keepOutSchema = z.strictObject({
  what: label.optional(),
  along: range,
  across: range,
  up: range,
  access: z.boolean().default(true),
  /**
   * What lies there already (an old pig, a full tank), kg, its middle in the middle of the three ranges. It counts in the
   * balance as a weight added to the vessel, and never in what is asked of the bundles (`ballast`, `centre`, `target`,
   * `most`). Since 0.1.0.
   */
  mass: kg.optional(),
  /** The vessel's own figures were taken with `mass` aboard, so that it is not added to them again. Since 0.1.0. */
  aboard: z.boolean().optional(),
});

/** A floor, a frame or a batten across the void that the ground tier rests on. Since 0.1.0. */
const bearerSchema = z.strictObject({
  /** Its middle. */
  along: mm,
  width: mmAbove0,
  /** All that it may carry, kg. */
  most: kg.optional(),
});

/** A channel along the floor, all along the void, kept free so that water runs to the pump. Since 0.1.0. */
const drainSchema = z.strictObject({
  width: mmAbove0,
  height: mmAbove0,
  /** One channel over the middle of the floor, or one at either side of it. */
  where: z.enum(['middle', 'sides']),
});

const openingSchema = z.strictObject({
  along: mmAbove0,
  across: mmAbove0,
  endFirst: z.boolean().default(false),
  deck: mm.default(0),
  /** Its middle, over the middle line where only `along` is given; absent: the middle of the void. It decides the order in and out, and, where it is given, what gets under the deck end first. Since 0.1.0. */
  at: z.strictObject({ along: mm, across: signedMm.default(0) }).optional(),
});

export const voidSchema = z.strictObject({
  void: label,
  name: z.string().max(200).default(''),
  length: mmAbove0,
  width: mmAbove0,
  height: mmAbove0,
  axis: z.enum(['fore-and-aft', 'athwartships', 'either']).default('fore-and-aft'),
  origin: z
    .strictObject({ x: metres.default(0), y: metres.default(0), z: metres.default(0) })
    .default({ x: 0, y: 0, z: 0 }),
  clear: z
    .strictObject({ ends: mm.default(8), sides: mm.default(5), top: mm.default(12) })
    .default({ ends: 8, sides: 5, top: 12 }),
  dunnage: mm.default(12),
  gap: z.strictObject({ runs: mm.default(8), across: mm.default(4) }).default({ runs: 8, across: 4 }),
  limit: kgAbove0.optional(),
  /** The suggested limit holds here too: no bundle over it, however `limit` stands and `handling` changes. Since 0.1.0. */
  limitByGuide: z.boolean().optional(),
  target: kg.optional(),
  most: kg.optional(),
  rank: z.int().min(1).max(1000).default(1),
  opening: openingSchema.optional(),
  /** Beside `opening`: a bundle goes through whichever lets it pass. Since 0.1.0. */
  otherOpenings: z.array(openingSchema).max(50).optional(),
  keepOut: z.array(keepOutSchema).max(1000).default([]),
  stations: z.array(stationSchema).min(2).max(200).optional(),
  /** What carries the ground tier. Absent: nothing is said of it. Since 0.1.0. */
  bearers: z.array(bearerSchema).min(1).max(200).optional(),
  /** The most that any run may weigh for its length, kg/m. Since 0.1.0. */
  mostPerMetre: kgAbove0.optional(),
  /** Since 0.1.0. */
  drain: drainSchema.optional(),
  handling: handlingSchema.optional(),
  /** Names of legs in `lift.legs` that go before `handling`, in order. Since 0.1.0. */
  route: z.array(label).max(20).optional(),
  /** Since 0.1.0. */
  holdDown: holdDownSchema.optional(),
});

export const vesselSchema = z.strictObject({
  displacement: kgAbove0.optional(),
  displacementMost: kgAbove0.optional(),
  freeboardLeast: metres.optional(),
  freeboard: metres.optional(),
  lcg: metres.optional(),
  vcg: metres.optional(),
  lcf: metres.optional(),
  waterlineLength: z.number().positive().max(100_000).optional(),
  beam: z.number().positive().max(100_000).optional(),
  kgPerCm: kgAbove0.optional(),
  kgmPerCm: kgAbove0.optional(),
  gm: metres.optional(),
  water: z.number().min(900).max(1100).optional(),
  draughtForward: metres.optional(),
  draughtAft: metres.optional(),
  hull: z.string().max(100).optional(),
  /** Timed, for one whole roll there and back, s. Since 0.1.0. */
  rollPeriod: z.number().positive().max(60).optional(),
  /** Her list as she floats now, degrees, to starboard positive; absent: she is taken as upright. Since 0.1.0. */
  list: z.number().min(-30).max(30).optional(),
  /** Where water can come in or must run out: m above the waterline as she floats now, at x, y. Since 0.1.0. */
  openings: z
    .array(z.strictObject({ name: label, height: metres, x: metres, y: metres }))
    .max(100)
    .optional(),
});

/** Change of draught, cm, down positive. */
const centimetres = z.number().min(-500).max(500);

/**
 * What the ballast should do to her, kept with the aims by place that were made of it: a plan is held against it, and what
 * it misses is told in centimetres, degrees and metres. The planner follows `ballast`, `centre` and the targets.
 */
export const effectSchema = z.strictObject({
  /** How far she should go down at the ends of her waterline. */
  down: z.strictObject({ forward: centimetres, aft: centimetres }).optional(),
  /** Change of trim, by the head positive, where `down` is not given. */
  trim: centimetres.optional(),
  /** No list: within half a degree. */
  upright: z.boolean().optional(),
  gm: z.number().positive().max(20).optional(),
  /** One whole roll, s. */
  period: z.number().positive().max(60).optional(),
  /** How near the marks must be, cm; 1 where absent. */
  within: z.number().positive().max(50).optional(),
});

export const aimsSchema = z.strictObject({
  ballast: kg.optional(),
  centre: z.strictObject({ x: metreRange.optional(), y: metreRange.optional(), z: metreRange.optional() }).optional(),
  spread: z.number().positive().max(1000).optional(),
  fixedShare: z.number().min(0).max(1).default(0.8),
  stopsAtMost: z.int().min(1).max(10_000).optional(),
  kgPerHour: z.number().min(0).max(10_000).default(5),
  /** The most that she may list while she is loaded, degrees. Since 0.1.0. */
  listMost: z.number().positive().max(10).optional(),
  /** Since 0.1.0. */
  effect: effectSchema.optional(),
});

export const jobSchema = z.strictObject({
  format: z.literal(JOB_FORMAT),
  /** The first version of kentledge that carries the job out; one older than it refuses the job. Since 0.1.0. */
  needs: z
    .string()
    .regex(/^\d{1,5}\.\d{1,5}\.\d{1,5}$/)
    .optional(),
  name: label,
  steel: z.strictObject({ density: z.number().min(500).max(25_000).default(7850) }).prefault({}),
  pile: z.array(lotSchema).min(1).max(LOTS_AT_MOST),
  saw: sawSchema.prefault({}),
  bundle: bundleRulesSchema.prefault({}),
  voids: z.array(voidSchema).min(1).max(VOIDS_AT_MOST),
  vessel: vesselSchema.optional(),
  aims: aimsSchema.prefault({}),
  /** Since 0.1.0. */
  lift: liftRulesSchema.optional(),
});

/** A job as written, before defaults. */
export type JobInput = z.input<typeof jobSchema>;
/** A job with every default filled in. */
export type Job = z.output<typeof jobSchema>;
export type Lot = Job['pile'][number];
export type Saw = Job['saw'];
export type BundleRules = Job['bundle'];
export type Void = Job['voids'][number];
export type KeepOut = Void['keepOut'][number];
export type Station = NonNullable<Void['stations']>[number];
export type Bearer = NonNullable<Void['bearers']>[number];
export type Opening = NonNullable<Void['opening']>;
export type Vessel = NonNullable<Job['vessel']>;
export type Aims = Job['aims'];
export type WantedEffect = NonNullable<Aims['effect']>;
