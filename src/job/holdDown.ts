/**
 * What holds the ballast of a void down, as the user enters it. Since 0.1.0. Forces in kN, angles in degrees from the
 * floor, steel stresses in MPa, accelerations in multiples of gravity.
 */
import { z } from 'zod';
import { wordsOf } from './label.ts';

export const BOLT_SIZES = ['M6', 'M8', 'M10', 'M12', 'M16'] as const;
export const BOLT_GRADES = ['8.8', 'A2-70', 'A4-70', 'A2-80', 'A4-80'] as const;
export const SIDES = ['forward', 'aft', 'port', 'starboard'] as const;

const kN = z.number().positive().max(100_000);
const mm = z.number().positive().max(100_000);
const words = wordsOf(500);
const angle = z
  .number()
  .gt(0, 'a strap that lies flat pulls nothing down')
  .lt(90, 'write the angle to the floor, under 90');

/**
 * Where along its void the middle of each lies, mm from the after end (from port where bars lie athwartships), as many as
 * `count`. Absent: whoever fits them settles it. Since 0.1.0.
 */
const places = z.array(z.number().min(0).max(100_000)).min(1).max(100);

const strap = { count: z.int().min(1).max(100), lashingCapacity: kN, breakingLoad: kN.optional(), angle };

const strapSchema = z.discriminatedUnion('kind', [
  /** Over the top, from side to side; `tension` is what the tensioner leaves in it, else half the capacity is taken. */
  z.strictObject({ kind: z.literal('over'), ...strap, tension: kN.optional(), at: places.optional() }),
  /** From the stow to a fixing, holding against one side; `aside` is its angle in plan from that direction. */
  z.strictObject({
    kind: z.literal('direct'),
    ...strap,
    against: z.enum(SIDES),
    aside: z.number().min(0).lt(90).default(0),
  }),
]);

const barAcrossSchema = z.strictObject({
  count: z.int().min(1).max(100),
  at: places.optional(),
  width: mm,
  thickness: mm,
  /** Standing on its thin side. */
  onEdge: z.boolean().default(false),
  span: mm,
  /** Yield strength: S235 is the default to confirm. */
  yield: z.number().min(50).max(1500).default(235),
  /** Where the stow presses on it: in the middle of its span, or all across the stow that lies under it. */
  load: z.enum(['middle', 'spread']).default('middle'),
  bolts: z.strictObject({
    size: z.enum(BOLT_SIZES),
    grade: z.enum(BOLT_GRADES),
    perBar: z.int().min(2).max(20),
    /** What they go through and how far from its edge: usually the weak part. */
    into: words,
  }),
});

const blockedSchema = z.strictObject({ by: words, carries: kN });

export const holdDownSchema = z.strictObject({
  /** Between stow and floor, dry. Absent: none is counted. */
  friction: z.number().min(0).max(0.6).default(0),
  straps: z.array(strapSchema).max(50).default([]),
  bars: z.array(barAcrossSchema).max(50).default([]),
  /** What stands against the ends and sides of the stow, and what it carries. */
  blocked: z
    .strictObject({
      forward: blockedSchema.optional(),
      aft: blockedSchema.optional(),
      port: blockedSchema.optional(),
      starboard: blockedSchema.optional(),
      /** What it stands on, where a load downwards is stated. Since 0.1.0. */
      down: blockedSchema.optional(),
    })
    .prefault({}),
  /**
   * Other accelerations than twice gravity, and one downwards. A lighter one needs its reason, which is printed, and is
   * worked out beside the usual one.
   */
  loads: z
    .strictObject({
      along: z.number().positive().max(20).optional(),
      across: z.number().positive().max(20).optional(),
      up: z.number().positive().max(20).optional(),
      /** Its own weight included. Since 0.1.0. */
      down: z.number().positive().max(20).optional(),
      reason: words.optional(),
    })
    .prefault({}),
  /** Room it takes above the stow, mm: part of `clear.top`. */
  room: z.number().min(0).max(1000).default(0),
});

export type HoldDown = z.output<typeof holdDownSchema>;
export type Strap = HoldDown['straps'][number];
export type BarAcross = HoldDown['bars'][number];
export type BoltSize = (typeof BOLT_SIZES)[number];
export type BoltGrade = (typeof BOLT_GRADES)[number];
export type Side = (typeof SIDES)[number];
