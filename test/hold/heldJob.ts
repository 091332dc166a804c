/** A job of one void with a hold-down, and a bar across to hold it with. */
import type { JobInput } from '../../src/job/job.ts';

export type SpaceInput = Partial<JobInput['voids'][number]>;
export type HoldInput = NonNullable<SpaceInput['holdDown']>;

export function jobWith(holdDown: HoldInput, space: SpaceInput = {}): JobInput {
  return {
    format: 'kentledge-job/1',
    name: 'Held',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2000, count: 4 }],
    voids: [{ void: 'V1', length: 1000, width: 300, height: 150, clear: { top: 20 }, ...space, holdDown }],
  };
}

export const BAR = {
  count: 2,
  width: 40,
  thickness: 10,
  span: 400,
  bolts: { size: 'M8', grade: '8.8', perBar: 2, into: 'oak floors' },
} as const;
