/** Bars across and straps only press: where they have to lie for a run to be held, and which of them has what of it. */
import { describe, expect, test } from 'vitest';
import { forceAt } from '../../src/hold/beam.ts';
import { STEEL_FACTOR } from '../../src/hold/carriers.ts';
import { type HeldVoid, heldVoid } from '../../src/hold/holdDown.ts';
import { type HeldRun, holdsMiddle } from '../../src/hold/runs.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { BAR, type HoldInput, jobWith } from './heldJob.ts';

const ONE_BAR = forceAt({ ...BAR, onEdge: false, pressed: 0 }, 235 / STEEL_FACTOR);

const run = (n: number, from: number, to: number, mass: number): HeldRun => ({ run: n, from, to, mass });

function held(holdDown: HoldInput, runs: HeldRun[]): HeldVoid {
  const read = readJobValue(jobWith(holdDown));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const mass = runs.reduce((sum, one) => sum + one.mass, 0);
  return heldVoid(read.value.job.voids[0]!, { mass, rolling: false, athwartships: false, runs });
}
const up = (result: HeldVoid) => result.cases.find((one) => one.direction === 'up')!;

test('the middle of a run lies between the outermost edges of what holds it, to the millimetre that places are written to', () => {
  const thousand = run(1, 0, 1000, 30);
  const over = (...edges: [number, number][]) => holdsMiddle(thousand, edges);
  expect([over([500, 540]), over([501, 541]), over([460, 500]), over([459, 499])]).toEqual([true, false, true, false]);
  expect([over([100, 140], [860, 900]), over([100, 140], [440, 480])]).toEqual([true, false]);
  const odd = run(1, 8, 491, 80);
  expect([249, 250, 248, 251].map((at) => holdsMiddle(odd, [[at, at]]))).toEqual([true, true, false, false]);
});

describe('a bar across only presses', () => {
  const RUN = [run(1, 8, 491, 80.3)];

  test('two on one side of the middle of a run do not hold it, and it is told where one more has to lie', () => {
    // A2 would have (249.5 − 100)/110 of the load and A1 would have to pull it up.
    const result = held({ bars: [{ ...BAR, width: 50, at: [100, 210] }] }, RUN);
    expect(up(result)).toMatchObject({ carried: false, best: null });
    expect(result.notCounted.join(' ')).toContain(
      'has only A1 and A2 over it, and its middle, at 249.5 mm, lies past all of them: its other end would lift. Put one more bar across between 249.5 and 491 mm',
    );
    expect(up(result).least).toEqual([
      'A bar across on each side of the middle of run 1 (at 249.5 mm along), or one over that middle.',
    ]);
    expect(held({ bars: [{ ...BAR, width: 50, at: [300, 400] }] }, RUN).notCounted.join(' ')).toContain(
      'lies before all of them: its other end would lift. Put one more bar across between 8 and 249.5 mm',
    );
  });

  test('and a bar balances no more than half its width: one of 40 mm is not enough 44.5 mm from the middle', () => {
    const one = (at: number) => up(held({ bars: [{ ...BAR, count: 1, at: [at] }] }, RUN));
    expect([205, 228, 230, 249, 269, 271, 294].map((at) => one(at).best !== null)).toEqual([
      false,
      false,
      true,
      true,
      true,
      false,
      false,
    ]);
    expect(one(230).best!.carries).toBeCloseTo(ONE_BAR, 6);
  });

  test('beyond the outermost place and within its width all is on that one', () => {
    const result = held({ bars: [{ ...BAR, at: [100, 235] }] }, RUN);
    expect([...result.covers[0]!.shares.values()]).toEqual([0, 1]);
    expect(result.assumed.join(' ')).toContain('It only presses: the middle of a run has to lie between');
  });
});
