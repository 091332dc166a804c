/**
 * How bundles are carried and lowered: the way into a void, the legs shared by several voids, and a coarser table by
 * zones. Lengths mm, masses kg, twist in degrees.
 */
import { z } from 'zod';
import { label } from './label.ts';

const mm = z.number().min(0).max(100_000);
const signedMm = z.number().min(-100_000).max(100_000);
const kgAbove0 = z.number().positive().max(1000);
const twist = z.number().min(0).max(180);

const lift = {
  /** Level, from the middle of the ankles to the middle of the hands. */
  reach: mm.optional(),
  /** Heights of the hands over the ground stood on, negative below it. */
  start: signedMm.optional(),
  end: signedMm.optional(),
  twist: twist.optional(),
  perMinute: z.number().min(0).max(60).optional(),
  spell: z.enum(['short', 'moderate', 'long', 'over-long']).optional(),
  grip: z.enum(['good', 'fair', 'poor']).optional(),
  posture: z.enum(['standing', 'kneeling', 'seated']).optional(),
  hands: z.union([z.literal(1), z.literal(2)]).optional(),
  /** Reach and twist at the end of the lift, where they differ. Since 0.1.0. */
  reachEnd: mm.optional(),
  twistEnd: twist.optional(),
  /** The most that the person has lifted this way and calls easy. Since 0.1.0. */
  tested: kgAbove0.optional(),
};

/** The last leg of the way: into the void. */
export const handlingSchema = z.strictObject(lift);

/** A leg that several voids may share: quay to deck, deck to cabin. Since 0.1.0. */
const legSchema = z.strictObject({ leg: label, ...lift });

const people = z.strictObject({ women: kgAbove0, men: kgAbove0 });

/** Masses by height of the hands, close to the body and at arm's length, the lowest zone first. Since 0.1.0. */
const zonesSchema = z.strictObject({
  /** Checked by the user against what their own authority publishes. */
  confirmed: z.boolean().default(false),
  person: z.enum(['women', 'men']).default('women'),
  rows: z
    .array(z.strictObject({ zone: label, upTo: signedMm, close: people, armsLength: people }))
    .min(1)
    .max(20)
    .optional(),
});

/** What is said of lifting for the whole job. Since 0.1.0. */
export const liftRulesSchema = z.strictObject({
  legs: z.array(legSchema).max(100).default([]),
  zones: zonesSchema.optional(),
  /** The most that whoever lifts may handle at all, kg, by their own authority; no suggestion goes over it. Since 0.1.0. */
  referenceMass: kgAbove0.optional(),
  /** No bundle over the guide of its void, and none over 25 kg, whatever the limit. */
  forbidHeavy: z.boolean().default(false),
});

export type Handling = z.output<typeof handlingSchema>;
export type Zones = z.output<typeof zonesSchema>;
export type LiftRules = z.output<typeof liftRulesSchema>;
