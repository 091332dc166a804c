import { describe, test } from 'vitest';
import { planRandomJob, seedsFrom } from './randomPlan.ts';

describe('random jobs, any shape of section, any field a box job may have', () => {
  test.each([...seedsFrom(1, 5), 21])('job %i is planned at effort quick without a fault', planRandomJob);
});
