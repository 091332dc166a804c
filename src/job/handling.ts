/**
 * How bundles are carried and lowered: the way into a void, the legs shared by several voids, and a coarser table by
 * zones. Lengths mm, masses kg, twist in degrees.
 */
import { z } from 'zod';
import { label } from './label.ts';

const mm = z.number().min(0).max(100_000).describe('mm');
const signedMm = z.number().min(-100_000).max(100_000).describe('mm');
const kgAbove0 = z.number().positive().max(1000).describe('kg');
const twist = z.number().min(0).max(180).describe('of the body, degrees');

const lift = {
  reach: mm.optional().describe('level, from the middle of the ankles to the middle of the hands, mm'),
  start: signedMm.optional().describe('height of the hands over the ground stood on, negative below it, mm'),
  end: signedMm.optional().describe('the same where the lift ends, mm'),
  twist: twist.optional(),
  perMinute: z.number().min(0).max(60).optional().describe('lifts in a minute'),
  spell: z.enum(['short', 'moderate', 'long', 'over-long']).optional(),
  grip: z.enum(['good', 'fair', 'poor']).optional(),
  posture: z.enum(['standing', 'kneeling', 'seated']).optional(),
  hands: z.union([z.literal(1), z.literal(2)]).optional(),
  reachEnd: mm.optional().describe('at the end of the lift, where it differs, mm; since 0.1.0'),
  twistEnd: twist.optional().describe('at the end of the lift, where it differs, degrees; since 0.1.0'),
  tested: kgAbove0.optional().describe('the most that the person has lifted this way and calls easy, kg; since 0.1.0'),
};

export const handlingSchema = z.strictObject(lift).describe('the last leg of the way, into the void');

const legSchema = z
  .strictObject({ leg: label, ...lift })
  .describe('a leg that several voids may share: quay to deck, deck to cabin; since 0.1.0');

const people = z.strictObject({ women: kgAbove0, men: kgAbove0 });

/** Masses by height of the hands, close to the body and at arm's length. Since 0.1.0. */
const zonesSchema = z.strictObject({
  confirmed: z.boolean().default(false).describe('checked by the user against what their own authority publishes'),
  person: z.enum(['women', 'men']).default('women'),
  rows: z
    .array(
      z.strictObject({
        zone: label,
        upTo: signedMm.describe('height of the hands, mm; the lowest zone first'),
        close: people,
        armsLength: people,
      }),
    )
    .min(1)
    .max(20)
    .optional(),
});

/** What is said of lifting for the whole job. Since 0.1.0. */
export const liftRulesSchema = z.strictObject({
  legs: z.array(legSchema).max(100).default([]),
  zones: zonesSchema.optional(),
  referenceMass: kgAbove0
    .optional()
    .describe(
      'the most that whoever lifts may handle at all, kg, by their own authority; no suggestion goes over it; since 0.1.0',
    ),
  forbidHeavy: z
    .boolean()
    .default(false)
    .describe('no bundle over the guide of its void, and none over 25 kg, whatever the limit'),
});

export type Handling = z.output<typeof handlingSchema>;
export type Zones = z.output<typeof zonesSchema>;
export type LiftRules = z.output<typeof liftRulesSchema>;
