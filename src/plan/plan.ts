/**
 * The plan file, `kentledge-plan/1`: bars cut, bundles tied and where each lies. Lengths mm, masses kg, centres m in the
 * vessel's coordinates. DEVELOPERS.md tells the life of a plan.
 */
import { z } from 'zod';
import { sectionSchema } from '../job/section.ts';

export const PLAN_FORMAT = 'kentledge-plan/1';

const mm = z.number();
const kg = z.number();
/** A bundle has no more bars than `bundle.maxBars` can be, a bar no more pieces and spans than a job can give it. */
const BARS_AT_MOST = 1000;
const PIECES_AT_MOST = 100_000;
const SPANS_AT_MOST = 1001;

const point = z.strictObject({ x: z.number(), y: z.number(), z: z.number() });
const box = z.strictObject({ along: mm, across: mm, up: mm });

const planBarSchema = z.strictObject({
  bar: z.string(),
  lot: z.string(),
  length: mm,
  pieces: z.array(z.strictObject({ piece: z.string(), from: mm, to: mm, bundle: z.string() })).max(PIECES_AT_MOST),
  remainders: z.array(z.strictObject({ from: mm, to: mm, fate: z.enum(['keep', 'scrap']) })).max(SPANS_AT_MOST),
});

const planBundleSchema = z.strictObject({
  bundle: z.string(),
  void: z.string(),
  run: z.int().min(1),
  tier: z.int().min(1),
  order: z.int().min(1),
  section: sectionSchema,
  length: mm,
  arrangement: z.enum(['grid', 'nested']),
  rows: z.int().min(1),
  columns: z.array(z.int()).min(1).max(BARS_AT_MOST),
  onEdge: z.boolean(),
  slots: z.array(z.array(z.string()).max(3)).max(BARS_AT_MOST),
  mass: kg,
  limit: kg,
  size: box,
  at: box,
  becket: mm.optional(),
  /** Of the part that goes in before the trial, or of the rest (`aims.fixedShare`). Since 0.1.0. */
  share: z.enum(['fixed', 'trim']).optional(),
});

const planRunSchema = z.strictObject({
  void: z.string(),
  run: z.int().min(1),
  from: mm,
  to: mm,
  packing: z.tuple([mm, mm]),
});

const planVoidSchema = z.strictObject({
  void: z.string(),
  mass: kg,
  bundles: z.int().min(0),
  fill: z.number(),
  centre: point.nullable(),
  axis: z.enum(['fore-and-aft', 'athwartships']).optional(),
});

const totalsSchema = z.strictObject({
  stockMass: kg,
  placedMass: kg,
  keptMass: kg,
  scrapMass: kg,
  kerfMass: kg,
  squaringMass: kg,
  spoiledMass: kg,
  bars: z.int(),
  pieces: z.int(),
  cuts: z.int(),
  stops: z.int(),
  bundles: z.int(),
  minutes: z.number(),
});

const boundSchema = z.strictObject({
  value: z.number(),
  valueAtMost: z.number().nullable(),
  gap: z.number().nullable(),
  scope: z.string().optional(),
});

const cautionSchema = z.strictObject({ code: z.string(), about: z.string(), text: z.string() });

export const planSchema = z.strictObject({
  format: z.literal(PLAN_FORMAT),
  job: z.string(),
  jobDigest: z.string().regex(/^sha256:[0-9a-f]{64}$/),
  engine: z.string(),
  effort: z.enum(['quick', 'steady', 'thorough']),
  seed: z.int(),
  bars: z.array(planBarSchema),
  bundles: z.array(planBundleSchema),
  runs: z.array(planRunSchema),
  voids: z.array(planVoidSchema),
  totals: totalsSchema,
  bound: boundSchema,
  centre: point.nullable(),
  cautions: z.array(cautionSchema),
  /** What keeps the value from being greater, in sentences. Since 0.1.0. */
  binds: z.array(z.string()).optional(),
  /** What one more would be worth, in sentences. Since 0.1.0. */
  oneMore: z.array(z.strictObject({ what: z.string(), worth: kg, text: z.string() })).optional(),
  /** Whole plans for a falling number of stop settings. Since 0.1.0. */
  choice: z
    .array(
      z.strictObject({
        stops: z.int(),
        value: kg,
        placedMass: kg,
        scrapMass: kg,
        minutes: z.number(),
        chosen: z.boolean(),
      }),
    )
    .optional(),
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
