import { expect, test } from 'vitest';
import type { Shape } from '../../src/drawing/scene.ts';
import { voidCrossScene } from '../../src/drawing/voidCross.ts';
import { trialPair } from '../plan/trialPlan.ts';

const { job, plan } = trialPair();

/** Everything drawn, in order, groups taken apart. */
function drawn(shapes: Shape[]): Shape[] {
  return shapes.flatMap((shape) => (shape.kind === 'group' ? drawn(shape.shapes) : [shape]));
}

test('the centreline strikes through no mark, of a bundle or of the chock between two', () => {
  const space = { ...job.voids[0]!, length: 900, width: 240, height: 130, stations: undefined, keepOut: [] };
  const some = plan.bundles.find((one) => one.void === space.void)!;
  const bundles = [-100, 40].map((across, n) => ({
    ...some,
    bundle: `V1-0${n + 1}`,
    order: n + 1,
    run: 1,
    tier: 1,
    at: { along: 10, across, up: 10 },
    size: { along: 600, across: 60, up: 60 },
  }));
  const runs = plan.runs.filter((run) => run.void === space.void && run.run === 1);
  const own = { ...plan, bundles, runs: runs.map((run) => ({ ...run, from: 10, to: 610 })) };
  const shapes = drawn(voidCrossScene(space, own, 300, { width: 120, height: 80 }).shapes);
  const marks = shapes.flatMap((shape, n) =>
    shape.kind === 'text' && shape.role === 'label' ? [{ ...shape, n }] : [],
  );
  const guides = shapes.flatMap((shape, n) =>
    shape.kind === 'line' && shape.role === 'guide' ? [{ ...shape, n }] : [],
  );
  expect(guides).toHaveLength(1);
  const [guide] = guides as [(typeof guides)[0]];
  const crossed = marks.filter(({ x, text, size }) => Math.abs(x - guide.from.x) < (size * text.length) / 3);
  // The width of the void stands over it.
  expect(crossed.map(({ text }) => text).sort()).toEqual(['1c', '240']);
  expect(crossed.find(({ text }) => text === '1c')!.n).toBeGreaterThan(guide.n);
});
