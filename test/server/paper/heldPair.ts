/** The trial with what holds one of its voids down. */
import { holdDownSchema } from '../../../src/job/holdDown.ts';
import { trialPair } from '../../plan/trialPlan.ts';

/** With a hold-down in one void: bars at stated places, a strap without one, every side blocked. */
export function heldPair(): ReturnType<typeof trialPair> {
  const { job, plan } = trialPair();
  const by = { by: 'the floors, with chocks', carries: 4 };
  const bolts = { size: 'M8', grade: 'A4-70', perBar: 2, into: 'oak bearers, 50 mm from the edge' } as const;
  const hold = holdDownSchema.parse({
    bars: [{ count: 3, at: [120, 400, 700], width: 40, thickness: 10, span: 340, bolts }],
    straps: [{ kind: 'over', count: 3, lashingCapacity: 5, angle: 60 }],
    blocked: { forward: by, aft: by, port: by, starboard: by },
  });
  const voids = job.voids.map((space) => (space.void === 'V1' ? { ...space, holdDown: hold } : space));
  return { job: { ...job, voids }, plan };
}
