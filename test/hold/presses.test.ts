/** Bars across and straps only press: where they have to lie for a run to be held, and which of them has what of it. */
import { describe, expect, test } from 'vitest';
import { forceAt } from '../../src/hold/beam.ts';
import { STEEL_FACTOR } from '../../src/hold/carriers.ts';
import { fittingRows } from '../../src/hold/fittingRows.ts';
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
    expect(result.assumed.join(' ')).toContain('It only presses: a run’s middle has to lie between');
  });
});

describe('the tension of a strap over the top', () => {
  const RUN = [run(1, 0, 1000, 50)];
  const over = { kind: 'over', count: 1, lashingCapacity: 2.5, angle: 60, at: [500] } satisfies NonNullable<
    HoldInput['straps']
  >[number];
  const withTension = (tension?: number) =>
    held({ friction: 0.5, straps: [{ ...over, ...(tension !== undefined && { tension }) }] }, RUN);
  const port = (result: HeldVoid) => result.cases.find(({ direction }) => direction === 'port')!.best!;

  test('stands in the working, in the table and among what is assumed, with what it carries by it', () => {
    for (const [stated, tension] of [
      [undefined, 1.25],
      [0.8, 0.8],
    ] as const) {
      const result = withTension(stated);
      // 2·μ·sin α·F_T/1.1, and μ·m·g of the weight itself.
      const carries = (2 * 0.5 * Math.sin(Math.PI / 3) * 1000 * tension) / 1.1 + 0.5 * 50 * 9.80665;
      expect(port(result).carries).toBeCloseTo(carries, 0);
      const told = `${tension.toFixed(2)} kN`;
      expect(port(result).working.join(' ')).toContain(`sin 60° × tension ${told} ÷ 1.1`);
      expect(result.assumed.join(' ')).toContain(`taken as: A ${told}`);
      expect(result.assumed.join(' ').includes('since none is stated')).toBe(stated === undefined);
      const read = readJobValue(jobWith({ straps: [{ ...over, ...(stated !== undefined && { tension: stated }) }] }));
      if (!read.ok) throw new Error('refused');
      expect(fittingRows(read.value.job.voids[0]!, 1000, result.covers, [])[0]!.what).toContain(`tension ${told}`);
    }
  });

  test('over half of its lashing capacity is told as more than usual', () => {
    expect(withTension(2).cautions).toEqual([expect.stringContaining('2.00 kN, 80 % of its lashing capacity')]);
    for (const usual of [undefined, 1.25]) expect(withTension(usual).cautions).toEqual([]);
  });
});
