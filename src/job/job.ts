/**
 * The job file, `kentledge-job/1`: what the user states. Lengths mm, masses kg, vessel coordinates m, angles degrees.
 *
 * The schema parses at the edge and fills in the defaults; inside, a {@link Job} is trusted. `readJob.ts` reads text and
 * reports every fault at once. What `.describe` says of a field is printed by `kentledge schema job` (`plan/fileSchema.ts`).
 */
import { z } from 'zod';
import { battenSchema, fromBatten } from './batten.ts';
import { handlingSchema, liftRulesSchema } from './handling.ts';
import { holdDownSchema } from './holdDown.ts';
import { label } from './label.ts';
import { sectionSchema } from './sectionSchema.ts';

export const JOB_FORMAT = 'kentledge-job/1';
/** A job holds no more. */
export const LOTS_AT_MOST = 10_000;
export const VOIDS_AT_MOST = 1000;

const mm = z.number().min(0).max(100_000).describe('mm');
const mmAbove0 = z.number().positive().max(100_000).describe('mm');
const signedMm = z.number().min(-100_000).max(100_000).describe('mm');
const kg = z.number().min(0).max(10_000_000).describe('kg');
const kgAbove0 = z.number().positive().max(10_000_000).describe('kg');
const minutes = z.number().min(0).max(10_000).describe('minutes');
/** Wide enough for a figure in mm to be read, and told as one. */
const metres = z.number().min(-100_000).max(100_000).describe('m');
const range = z.tuple([signedMm, signedMm]).describe('from and to, mm');
const metreRange = z.tuple([metres, metres]).describe('least and most, m');

export const spoiledSchema = z
  .strictObject({ from: mm, to: mm })
  .describe(
    'a span that no piece may touch (hole, weld, kink), mm from the start of the bar as it lies in the pile, uncut',
  );

export const lotSchema = z.strictObject({
  lot: label.describe('its mark, of which those of its bars are made: `A` gives `A-01` …'),
  section: sectionSchema,
  length: mmAbove0.optional().describe('of every bar of the lot, mm; this and `count`, or `lengths`'),
  count: z.int().min(1).max(100_000).optional().describe('bars in the lot; 1 where absent'),
  lengths: z.array(mmAbove0).min(1).max(100_000).optional().describe('each bar as measured, mm'),
  massPerMetre: z
    .number()
    .positive()
    .max(10_000)
    .optional()
    .describe('as weighed, kg/m; wins over section × density; required for the shape `other`'),
  coating: z.enum(['zinc', 'bare', 'paint', 'unknown']).default('unknown'),
  spoiled: z.array(spoiledSchema).max(1000).default([]).describe('the same in every bar of the lot'),
  squaring: mm.optional().describe('instead of `saw.squaring`, mm'),
  bow: z.number().min(0).max(100).default(2).describe('sag of a bar, mm in 1 m; grows with the square of the length'),
  note: z.string().max(2000).default(''),
});

export const sawSchema = z.strictObject({
  kerf: z.number().min(0).max(100).default(3).describe('steel that one cut takes, mm'),
  squaring: mm.default(0).describe('cut off each end of a bar to true it, mm'),
  tolerance: z.number().min(0).max(50).default(2).describe('pieces are cut within this of their length, mm'),
  shortestPiece: z.number().min(1).max(100_000).default(150).describe('mm'),
  keepFrom: mm.default(900).describe('a remainder of this length or longer is kept, a shorter one is scrap, mm'),
  gang: z.int().min(1).max(100).default(1).describe('bars cut at once'),
  minutesPerCut: minutes.default(2),
  minutesPerStop: minutes.default(5),
});

const jointsSchema = z
  .strictObject({ shortest: mmAbove0, share: z.number().min(0).max(1) })
  .describe('bars of a bundle butted end to end of pieces of at least `shortest` mm, in at most `share` of its bars');

export const bundleRulesSchema = z.strictObject({
  limit: kgAbove0
    .default(8)
    .describe('the most that a bundle may weigh with its wrapping, kg; a void may have its own'),
  wrap: z.number().min(0).max(100).default(3).describe('thickness of the wrapping on each side, mm'),
  wrapping: z.number().min(0).max(10).default(0).describe('mass of the wrapping of one bundle, kg'),
  endCover: z.number().min(0).max(200).default(2).describe('thickness of the cover at each end, mm'),
  maxBars: z.int().min(1).max(1000).default(30),
  minutesPerBundle: minutes.default(6),
  joints: jointsSchema.nullable().default(null),
  becket: z
    .strictObject({
      cord: mmAbove0.describe('thickness, mm'),
      grip: mm,
      sleeve: z.boolean().optional().describe('it has a sleeve to hold it by; since 0.1.0'),
    })
    .optional()
    .describe('the loop of cord that a bundle is lowered and lifted out by'),
});

const statedStationSchema = z.strictObject({
  along: mm.describe('mm; 0 at the first station, the length of the void at the last'),
  at: z
    .array(z.strictObject({ up: mm, from: signedMm, to: signedMm }))
    .min(1)
    .max(200)
    .optional()
    .describe(
      'clear space from … to, mm across, at heights `up`, straight between; may be left out where `batten` is given',
    ),
  batten: battenSchema.optional().describe('the same as it was measured, down from a level batten; since 0.1.0'),
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
  access: z.boolean().default(true).describe('nothing may lie over it either: it reaches up to the top of the void'),
  mass: kg
    .optional()
    .describe(
      'what lies there already (an old pig, a full tank), kg, its middle in the middle of the three ranges; it counts in the balance as a weight added to the vessel, and never in what is asked of the bundles (`ballast`, `centre`, `target`, `most`); since 0.1.0',
    ),
  aboard: z
    .boolean()
    .optional()
    .describe('the figures of the vessel were taken with `mass` aboard, so that it is not added again; since 0.1.0'),
  bears: z.boolean().optional().describe('a chock may stand against it: bars that are stowed, a floor; since 0.1.0'),
});

/** A floor, a frame or a batten across the void that the ground tier rests on. Since 0.1.0. */
const bearerSchema = z.strictObject({
  along: mm.describe('its middle, mm'),
  width: mmAbove0.describe('its breadth along the void, mm'),
  most: kg.optional().describe('all that it may carry, kg'),
});

/** A channel along the floor, all along the void, kept free so that water runs to the pump. Since 0.1.0. */
const drainSchema = z.strictObject({
  width: mmAbove0,
  height: mmAbove0,
  where: z.enum(['middle', 'sides']).describe('over the middle of the floor, or one at either side of it'),
});

const openingSchema = z.strictObject({
  along: mmAbove0.describe('its clear length along the void, mm'),
  across: mmAbove0.describe('its clear breadth, mm'),
  endFirst: z.boolean().default(false).describe('bundles may go in end first'),
  deck: mm.default(0).describe('thickness of the deck round it, mm'),
  at: z
    .strictObject({ along: mm, across: signedMm.default(0) })
    .optional()
    .describe(
      'its middle, over the middle line where only `along` is given; absent: the middle of the void; it decides the order in and out, and, where it is given, what gets under the deck end first; since 0.1.0',
    ),
});

export const voidSchema = z.strictObject({
  void: label.describe('its mark, on tags and sheets: `V1`'),
  name: z.string().max(200).default(''),
  length: mmAbove0.describe('the way the bars lie, mm'),
  width: mmAbove0.describe('across them, mm; only for drawing where there are stations'),
  height: mmAbove0,
  axis: z
    .enum(['fore-and-aft', 'athwartships', 'either'])
    .default('fore-and-aft')
    .describe('the way the bars lie; `either` (without stations): measured as for fore-and-aft'),
  origin: z
    .strictObject({ x: metres.default(0), y: metres.default(0), z: metres.default(0) })
    .default({ x: 0, y: 0, z: 0 })
    .describe("where the void's along 0, across 0, up 0 lies in the vessel, m"),
  clear: z
    .strictObject({ ends: mm.default(8), sides: mm.default(5), top: mm.default(12) })
    .default({ ends: 8, sides: 5, top: 12 }),
  dunnage: mm.default(12).describe('matting and battens under the ground tier, kept free for water, mm'),
  gap: z
    .strictObject({ runs: mm.default(8), across: mm.default(4) })
    .default({ runs: 8, across: 4 })
    .describe('free between runs, and between neighbours in a tier, mm'),
  limit: kgAbove0.optional().describe('of a bundle here, instead of `bundle.limit`, kg'),
  limitByGuide: z
    .boolean()
    .optional()
    .describe(
      'the suggested limit holds here too: no bundle over it, however `limit` stands and `handling` changes; since 0.1.0',
    ),
  target: kg
    .optional()
    .describe('wanted in this void, kg; passed by less than the lightest bundle in it; absent: as much as fits'),
  most: kg.optional().describe('never passed, kg'),
  rank: z.int().min(1).max(1000).default(1).describe('1 is preferred; one more is worth 1 % less, at most 10 %'),
  opening: openingSchema.optional().describe('in the top of the void; absent: anything passes'),
  otherOpenings: z
    .array(openingSchema)
    .max(50)
    .optional()
    .describe('beside `opening`: a bundle goes through whichever lets it pass; since 0.1.0'),
  keepOut: z.array(keepOutSchema).max(1000).default([]),
  stations: z
    .array(stationSchema)
    .min(2)
    .max(200)
    .optional()
    .describe('cross sections of a void that is no box, from along 0 to its length, straight between'),
  bearers: z
    .array(bearerSchema)
    .min(1)
    .max(200)
    .optional()
    .describe('floors, frames or battens across the void that carry the ground tier; since 0.1.0'),
  mostPerMetre: kgAbove0.optional().describe('the most that any run may weigh for its length, kg/m; since 0.1.0'),
  /** Since 0.1.0. */
  drain: drainSchema.optional(),
  handling: handlingSchema.optional(),
  route: z
    .array(label)
    .max(20)
    .optional()
    .describe('names of legs in `lift.legs` that go before `handling`, in order; since 0.1.0'),
  /** Since 0.1.0. */
  holdDown: holdDownSchema.optional(),
});

export const vesselSchema = z.strictObject({
  displacement: kgAbove0.optional().describe('as she floats now, kg'),
  displacementMost: kgAbove0.optional(),
  freeboardLeast: metres.optional(),
  freeboard: metres.optional().describe('as she floats now, m'),
  lcg: metres.optional().describe('x of her centre of gravity, m'),
  vcg: metres.optional().describe('z of her centre of gravity, m'),
  lcf: metres.optional().describe('x of the middle of her waterplane, m'),
  waterlineLength: z.number().positive().max(100_000).optional().describe('m'),
  beam: z.number().positive().max(100_000).optional().describe('greatest at the waterline, m'),
  kgPerCm: kgAbove0.optional().describe('that put her down 1 cm, kg'),
  kgmPerCm: kgAbove0.optional().describe('moment that trims her 1 cm, kg·m'),
  gm: metres.optional(),
  water: z.number().min(900).max(1100).optional().describe('density of the water she floats in, kg/m³'),
  draughtForward: metres.optional(),
  draughtAft: metres.optional(),
  hull: z.string().max(100).optional(),
  rollPeriod: z
    .number()
    .positive()
    .max(60)
    .optional()
    .describe('timed, for one whole roll there and back, s; since 0.1.0'),
  list: z
    .number()
    .min(-30)
    .max(30)
    .optional()
    .describe('as she floats now, degrees, to starboard positive; absent: she is taken as upright; since 0.1.0'),
  openings: z
    .array(z.strictObject({ name: label, height: metres, x: metres, y: metres }))
    .max(100)
    .optional()
    .describe('where water can come in or must run out: `height` above the waterline as she floats now; since 0.1.0'),
});

const centimetres = z.number().min(-500).max(500).describe('change of draught, cm, down positive');

/**
 * What the ballast should do to her, kept with the aims by place that were made of it: a plan is held against it, and what
 * it misses is told in centimetres, degrees and metres. The planner follows `ballast`, `centre` and the targets.
 */
export const effectSchema = z.strictObject({
  down: z.strictObject({ forward: centimetres, aft: centimetres }).optional().describe('at the ends of her waterline'),
  trim: centimetres.optional().describe('change of trim, cm, by the head positive, where `down` is not given'),
  upright: z.boolean().optional().describe('no list: within half a degree'),
  gm: z.number().positive().max(20).optional().describe('m'),
  period: z.number().positive().max(60).optional().describe('of one whole roll, s'),
  within: z.number().positive().max(50).optional().describe('how near the marks must be, cm; 1 where absent'),
});

export const aimsSchema = z.strictObject({
  ballast: kg
    .optional()
    .describe('wanted in all, kg, wrapping included; passed by less than the lightest bundle; absent: as much as fits'),
  centre: z
    .strictObject({ x: metreRange.optional(), y: metreRange.optional(), z: metreRange.optional() })
    .optional()
    .describe('of the bundles placed; kept where voids and pile allow'),
  spread: z
    .number()
    .positive()
    .max(1000)
    .optional()
    .describe('the most r.m.s. distance along of the placed mass from `vessel.lcf`, m'),
  fixedShare: z.number().min(0).max(1).default(0.8).describe('of the mass, that goes in before the trial'),
  stopsAtMost: z.int().min(1).max(10_000).optional().describe('different piece lengths'),
  kgPerHour: z
    .number()
    .min(0)
    .max(10_000)
    .default(5)
    .describe('an hour of work is only worth doing for this many kilograms more in place; 0: labour for nothing'),
  listMost: z.number().positive().max(10).optional().describe('while she is loaded, degrees; since 0.1.0'),
  effect: effectSchema.optional().describe('what the ballast should do to her; a plan is held against it; since 0.1.0'),
});

const jobFields = z.strictObject({
  format: z.literal(JOB_FORMAT),
  needs: z
    .string()
    .regex(/^\d{1,5}\.\d{1,5}\.\d{1,5}$/)
    .optional()
    .describe(
      'the first version of kentledge that carries the job out; one older than it refuses the job; since 0.1.0',
    ),
  name: label,
  steel: z.strictObject({ density: z.number().min(500).max(25_000).default(7850).describe('kg/m³') }).prefault({}),
  pile: z.array(lotSchema).min(1).max(LOTS_AT_MOST),
  saw: sawSchema.prefault({}),
  bundle: bundleRulesSchema.prefault({}),
  voids: z.array(voidSchema).min(1).max(VOIDS_AT_MOST),
  vessel: vesselSchema.optional(),
  aims: aimsSchema.prefault({}),
  /** Since 0.1.0. */
  lift: liftRulesSchema.optional(),
});

/** Units and axes of both files. */
export const AXES = [
  'Lengths mm, masses kg, places in the vessel m, angles degrees, unless a field says otherwise.',
  'In the vessel: x forward from the after end of the waterline, y to starboard, z up from the underside of the keel.',
  'In a void: `along` from its after end (fore-and-aft) or its port end (athwartships), the way the bars lie; `across` from its middle line, to starboard (fore-and-aft) or forward (athwartships) positive; `up` from its bottom.',
].join(' ');

export const jobSchema = jobFields.meta({
  title: 'Job file of kentledge',
  description: `What the user states: the pile, the saw, the bundles, the voids, the vessel and the aims. ${AXES} Beyond what a schema can say, every fault is told by kentledge itself, each with its path.`,
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
