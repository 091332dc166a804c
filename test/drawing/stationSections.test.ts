/** Every station of a void as a section: its true outline, and the bundles that stand in it or next to it. */
import { describe, expect, test } from 'vitest';
import { laidVoid } from '../../src/drawing/laid.ts';
import { crossOutline } from '../../src/drawing/outline.ts';
import type { Polygon, Shape, Text } from '../../src/drawing/scene.ts';
import { bundlesBeyond, voidCrossScene } from '../../src/drawing/voidCross.ts';
import type { Job } from '../../src/job/job.ts';
import { readJob } from '../../src/job/readJob.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { readPlan } from '../../src/plan/readPlan.ts';
import { exampleNames, exampleText } from '../examples.ts';
import { trialPair } from '../plan/trialPlan.ts';

function examplePair(name: string): { job: Job; plan: Plan } {
  const job = readJob(exampleText(`${name}.job.json`), { toCheck: true });
  const plan = readPlan(exampleText(`${name}.plan.json`));
  if (!job.ok || !plan.ok) throw new Error(name);
  return { job: job.value.job, plan: plan.value };
}

const PAIRS: [string, { job: Job; plan: Plan }][] = [
  ['trial', trialPair()],
  ...exampleNames()
    .filter((name) => name.startsWith('bilge'))
    .map((name): [string, { job: Job; plan: Plan }] => [name, examplePair(name)]),
];

function wordsOf(shapes: Shape[]): string[] {
  return shapes.flatMap((shape) =>
    shape.kind === 'group' ? wordsOf(shape.shapes) : shape.kind === 'text' ? [(shape as Text).text] : [],
  );
}

const BEYOND = 120;

describe.each(PAIRS)('the sections of %s', (_, { job, plan }) => {
  const filled = job.voids.filter(
    (space) => space.stations && plan.bundles.some((bundle) => bundle.void === space.void),
  );

  test('at each station have its outline point for point, on a scale that is the same across and up', () => {
    for (const space of job.voids.filter((each) => each.stations)) {
      const laid = laidVoid(space, plan);
      for (const { along } of laid.stations!) {
        const scene = voidCrossScene(space, plan, along, { width: 90, height: 62, beyond: BEYOND });
        const drawn = scene.shapes.find((shape) => shape.kind === 'polygon' && shape.role === 'void') as Polygon;
        const true_ = crossOutline(laid, along);
        expect(drawn.points).toHaveLength(true_.length);
        const wide = Math.max(...true_.map((p) => p.x)) - Math.min(...true_.map((p) => p.x));
        const scale = wide / (Math.max(...drawn.points.map((p) => p.x)) - Math.min(...drawn.points.map((p) => p.x)));
        for (const [i, point] of drawn.points.entries()) {
          expect((point.x - drawn.points[0]!.x) * scale).toBeCloseTo(true_[i]!.x - true_[0]!.x, 6);
          expect((drawn.points[0]!.y - point.y) * scale).toBeCloseTo(true_[i]!.y - true_[0]!.y, 6);
        }
      }
    }
  });

  test('have the number of every bundle that they cut, or of the run that is near', () => {
    for (const space of filled) {
      const laid = laidVoid(space, plan);
      for (const { along } of laid.stations!) {
        const cut = plan.bundles.filter(
          ({ void: mark, at, size }) => mark === space.void && at.along <= along && along <= at.along + size.along,
        );
        const shown = cut.length > 0 ? cut : (bundlesBeyond(laid, plan, along, BEYOND)?.bundles ?? []);
        const words = wordsOf(voidCrossScene(space, plan, along, { width: 90, height: 62, beyond: BEYOND }).shapes);
        for (const bundle of shown) expect(words, `${space.void} at ${along}`).toContain(String(bundle.order));
      }
    }
  });
});

test('what lies near a station is one run, its distance that of its nearest end', () => {
  const { job, plan } = trialPair();
  const laid = laidVoid(job.voids[1]!, plan);
  const run = plan.runs.find((each) => each.void === 'V2')!;
  expect(bundlesBeyond(laid, plan, 0, BEYOND)).toMatchObject({ away: run.from });
  expect(bundlesBeyond(laid, plan, 0, BEYOND)!.bundles).toHaveLength(2);
  expect(bundlesBeyond(laid, plan, 0, run.from - 1)).toBeNull();
  expect(bundlesBeyond(laid, plan, 350, 0)).toMatchObject({ away: 0 });
});
