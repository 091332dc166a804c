/**
 * What holds the ballast of a void down, as the user enters it. Since 0.1.0. Forces in kN, angles in degrees from the
 * floor, steel stresses in MPa, accelerations in multiples of gravity.
 */
import { z } from 'zod';
import { wordsOf } from './label.ts';

export const BOLT_SIZES = ['M6', 'M8', 'M10', 'M12', 'M16'] as const;
export const BOLT_GRADES = ['8.8', 'A2-70', 'A4-70', 'A2-80', 'A4-80'] as const;
export const SIDES = ['forward', 'aft', 'port', 'starboard'] as const;

const kN = z.number().positive().max(100_000).describe('kN');
const mm = z.number().positive().max(100_000).describe('mm');
const words = wordsOf(500);
const gravities = z.number().positive().max(20).describe('in multiples of gravity');
const angle = z
  .number()
  .gt(0, 'a strap that lies flat pulls nothing down')
  .lt(90, 'write the angle to the floor, under 90')
  .describe('to the floor, degrees');

const places = z
  .array(z.number().min(0).max(100_000))
  .min(1)
  .max(100)
  .describe(
    'where along its void the middle of each lies, mm, as many as `count`; absent: whoever fits them settles it; since 0.1.0',
  );

const strap = { count: z.int().min(1).max(100), lashingCapacity: kN, breakingLoad: kN.optional(), angle };

const strapSchema = z.discriminatedUnion('kind', [
  z
    .strictObject({
      kind: z.literal('over'),
      ...strap,
      tension: kN.optional().describe('what the tensioner leaves in it, kN; absent: half the capacity'),
      at: places.optional(),
    })
    .describe('over the top, from side to side'),
  z
    .strictObject({
      kind: z.literal('direct'),
      ...strap,
      against: z.enum(SIDES),
      aside: z.number().min(0).lt(90).default(0).describe('its angle in plan from that direction, degrees'),
    })
    .describe('from the stow to a fixing, holding against one side'),
]);

const barAcrossSchema = z.strictObject({
  count: z.int().min(1).max(100),
  at: places.optional(),
  width: mm,
  thickness: mm,
  onEdge: z.boolean().default(false).describe('standing on its thin side'),
  span: mm,
  yield: z.number().min(50).max(1500).default(235).describe('yield strength, MPa: S235 is the default to confirm'),
  load: z
    .enum(['middle', 'spread'])
    .default('middle')
    .describe('where the stow presses on it: in the middle of its span, or all across the stow that lies under it'),
  bolts: z.strictObject({
    size: z.enum(BOLT_SIZES),
    grade: z.enum(BOLT_GRADES),
    perBar: z.int().min(2).max(20),
    pull: z
      .enum(['along', 'across'])
      .optional()
      .describe(
        'whether the load pulls a bolt along its length or across it, in shear, as one through the side of a frame; absent: along; since 0.1.0',
      ),
    into: words.describe('what they go through and how far from its edge: usually the weak part'),
  }),
});

const blockedSchema = z.strictObject({ by: words, carries: kN });

export const holdDownSchema = z.strictObject({
  friction: z.number().min(0).max(0.6).default(0).describe('between stow and floor, dry; 0: none is counted'),
  straps: z.array(strapSchema).max(50).default([]),
  bars: z.array(barAcrossSchema).max(50).default([]),
  blocked: z
    .strictObject({
      forward: blockedSchema.optional(),
      aft: blockedSchema.optional(),
      port: blockedSchema.optional(),
      starboard: blockedSchema.optional(),
      down: blockedSchema.optional().describe('what it stands on, where a load downwards is stated; since 0.1.0'),
    })
    .prefault({})
    .describe('what stands against the ends and sides of the stow, and what it carries'),
  loads: z
    .strictObject({
      along: gravities.optional(),
      across: gravities.optional(),
      up: gravities.optional(),
      down: gravities.optional().describe('in multiples of gravity, its own weight included; since 0.1.0'),
      reason: words.optional(),
    })
    .prefault({})
    .describe(
      'other accelerations than twice gravity, and one downwards; a lighter one needs its reason, which is printed, and is worked out beside the usual one',
    ),
  room: z.number().min(0).max(1000).default(0).describe('that it takes above the stow, mm: part of `clear.top`'),
});

export type HoldDown = z.output<typeof holdDownSchema>;
export type Strap = HoldDown['straps'][number];
export type BarAcross = HoldDown['bars'][number];
export type BoltSize = (typeof BOLT_SIZES)[number];
export type BoltGrade = (typeof BOLT_GRADES)[number];
export type Side = (typeof SIDES)[number];
