/** A job read only to check a plan that was made for it. */
import { expect, test } from 'vitest';
import { readJobValue } from '../../src/job/readJob.ts';
import { trialJobInput } from '../plan/trialPlan.ts';

/** A job that can not be planned: a name with a tab, a keep-out beside its void, a spread about nothing. */
function unplannable(count: number) {
  const { pile, voids, ...rest } = trialJobInput();
  const [lot, ...lots] = pile;
  const [space, ...spaces] = voids;
  const keepOut = [{ along: [1500, 1600], across: [-20, 20], up: [0, 40] }];
  return {
    ...rest,
    name: 'Tri\tal',
    pile: [{ ...lot, count }, ...lots],
    voids: [{ ...space, keepOut }, ...spaces],
    vessel: undefined,
  };
}

test('what merely keeps a job from being planned is no fault of it, nor told beside other faults', () => {
  const pathsOf = (count: number, toCheck: boolean) => {
    const read = readJobValue(unplannable(count), { toCheck });
    return read.ok ? [] : read.faults.map(({ path }) => path).sort();
  };
  const planning = ['name', 'vessel.lcf', 'voids[0].keepOut[0].along'];
  expect(pathsOf(6, false)).toEqual(planning);
  expect(pathsOf(6, true)).toEqual([]);
  expect(pathsOf(-1, false)).toEqual(['name', 'pile[0].count', ...planning.slice(1)]);
  expect(pathsOf(-1, true)).toEqual(['pile[0].count']);
});
