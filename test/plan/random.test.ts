import { describe, test } from 'vitest';
import { planRandomJob } from './randomPlan.ts';

/** Together they have every shape of section and every field; 21 broke the planner once. */
const SEEDS = [3, 4, 21, 32, 34, 158, 210];

describe('random jobs, any shape of section, any field a box job may have', () => {
  test.each(SEEDS)('job %i is planned at effort quick without a fault', planRandomJob);
});
