/**
 * The plan file, `kentledge-plan/1`: bars cut, bundles tied and where each lies. Lengths mm, masses kg, centres m in the
 * vessel's coordinates. DEVELOPERS.md tells the life of a plan. What `.describe` says is printed by `kentledge schema plan`.
 */
import { z } from 'zod';
import { AXES } from '../job/job.ts';
import { sectionSchema } from '../job/sectionSchema.ts';
import { PLAN_FORMAT } from './planFormat.ts';

const mm = z.number().describe('mm');
const kg = z.number().describe('kg');
const minutes = z.number().describe('of cutting, setting stops and tying');
/** A bundle has no more bars than `bundle.maxBars` can be, a bar no more pieces and spans than a job can give it. */
const BARS_AT_MOST = 1000;
const PIECES_AT_MOST = 100_000;
const SPANS_AT_MOST = 1001;

const point = z.strictObject({ x: z.number(), y: z.number(), z: z.number() }).describe('in the vessel, m');
const box = z.strictObject({ along: mm, across: mm, up: mm });

const planBarSchema = z.strictObject({
  bar: z.string().describe('its mark, on no other bar'),
  lot: z.string().describe("of the job's pile"),
  length: mm,
  pieces: z
    .array(z.strictObject({ piece: z.string(), from: mm, to: mm, bundle: z.string() }))
    .max(PIECES_AT_MOST)
    .describe(
      'from … to, mm from the start of the whole bar, before it is squared; to − from is what the saw is set to',
    ),
  remainders: z
    .array(z.strictObject({ from: mm, to: mm, fate: z.enum(['keep', 'scrap']) }))
    .max(SPANS_AT_MOST)
    .describe('steel between the last kerf of a usable span and its end, mm from the start of the bar'),
});

const planBundleSchema = z.strictObject({
  bundle: z.string(),
  void: z.string(),
  run: z.int().min(1).describe('from along 0'),
  tier: z.int().min(1).describe('from the ground tier'),
  order: z.int().min(1).describe('of going in, within its void; backwards, of coming out'),
  section: sectionSchema,
  length: mm.describe('of its bars, mm'),
  arrangement: z.enum(['grid', 'nested']),
  rows: z.int().min(1),
  columns: z.array(z.int()).min(1).max(BARS_AT_MOST).describe('bars in each row, bottom row first'),
  onEdge: z.boolean().describe('every bar of it turned, so that its width stands up'),
  slots: z
    .array(z.array(z.string()).max(3))
    .max(BARS_AT_MOST)
    .describe(
      'pieces of each bar, bottom row first, least across first; two or three from least along where the bar is jointed',
    ),
  mass: kg.describe('wrapping included, kg'),
  limit: kg.describe('that holds for it, kg'),
  size: box.describe('wrapped, tolerance and bow included, mm'),
  at: box.describe('its corner of least along, across and up in the void as laid, mm'),
  becket: mm.optional().describe('cut length of the cord of one becket, mm'),
  share: z
    .enum(['fixed', 'trim'])
    .optional()
    .describe('of the part that goes in before the trial, or of the rest (`aims.fixedShare`); since 0.1.0'),
});

const planRunSchema = z.strictObject({
  void: z.string(),
  run: z.int().min(1),
  from: mm.describe('along, mm'),
  to: mm.describe('along, mm'),
  packing: z
    .tuple([mm, mm])
    .describe('from the bottom of the void to the ground tier at its two ends, dunnage included, mm'),
});

const planVoidSchema = z.strictObject({
  void: z.string(),
  mass: kg,
  bundles: z.int().min(0),
  fill: z.number().describe('steel volume ÷ the volume in which bundles may lie'),
  centre: point.nullable(),
  axis: z.enum(['fore-and-aft', 'athwartships']).optional().describe('how it was laid, where the job says `either`'),
});

const totalsSchema = z.strictObject({
  stockMass: kg.describe('of the bars listed, kg; the six masses below add up to it'),
  placedMass: kg.describe('steel in bundles, without wrapping, kg'),
  keptMass: kg,
  scrapMass: kg,
  kerfMass: kg,
  squaringMass: kg,
  spoiledMass: kg,
  bars: z.int(),
  pieces: z.int(),
  cuts: z.int().describe('piece ends that are no bar ends; two ends one kerf apart are one'),
  stops: z.int().describe('different piece lengths'),
  bundles: z.int(),
  minutes,
});

const boundSchema = z.strictObject({
  value: z.number().describe('of this plan, kg: steel placed by rank, less half the scrap, less the labour'),
  valueAtMost: z.number().nullable().describe('no plan of the job has a greater value, kg; null: not known'),
  gap: z.number().nullable().describe('(valueAtMost − value) ÷ |valueAtMost|'),
  scope: z.string().optional(),
});

const cautionSchema = z.strictObject({ code: z.string(), about: z.string(), text: z.string() });

const planFields = z.strictObject({
  format: z.literal(PLAN_FORMAT),
  job: z.string().describe('its name'),
  jobDigest: z
    .string()
    .regex(/^sha256:[0-9a-f]{64}$/)
    .describe(
      'sha256 of the job file as written, as JSON in UTF-8 without white space, keys at every level sorted by UTF-16 code units',
    ),
  engine: z.string().describe('version of kentledge that made it'),
  effort: z.enum(['quick', 'steady', 'thorough']),
  seed: z.int(),
  bars: z.array(planBarSchema).describe('bars that are cut; the others stay in the pile'),
  bundles: z.array(planBundleSchema),
  runs: z.array(planRunSchema),
  voids: z.array(planVoidSchema).describe('every void of the job, empty ones too'),
  totals: totalsSchema,
  bound: boundSchema,
  centre: point.nullable(),
  cautions: z.array(cautionSchema),
  binds: z.array(z.string()).optional().describe('what keeps the value from being greater, in sentences; since 0.1.0'),
  oneMore: z
    .array(z.strictObject({ what: z.string(), worth: kg, text: z.string() }))
    .optional()
    .describe('what one more would be worth, in sentences; since 0.1.0'),
  choice: z
    .array(
      z.strictObject({
        stops: z.int(),
        value: kg,
        placedMass: kg,
        scrapMass: kg,
        minutes,
        chosen: z.boolean(),
      }),
    )
    .optional()
    .describe('whole plans for a falling number of stop settings; since 0.1.0'),
});

export const planSchema = planFields.meta({
  title: 'Plan file of kentledge',
  description: `Bars cut, bundles tied and where each lies. ${AXES} Whether a plan is right for its job is told by kentledge check.`,
});

export type Plan = z.infer<typeof planSchema>;
export type PlanBar = Plan['bars'][number];
export type PlanBundle = Plan['bundles'][number];
export type PlanRun = Plan['runs'][number];
export type PlanVoid = Plan['voids'][number];
export type Totals = Plan['totals'];
export type Bound = Plan['bound'];
export type Caution = Plan['cautions'][number];
export type Effort = Plan['effort'];
