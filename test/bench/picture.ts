/**
 * Draws the picture of README.md anew: where the voids of the Bogbean lie, and one of them from above and in section.
 *
 *     npm run bench -- picture
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { group, type Scene, text } from '../../src/drawing/scene.ts';
import { svgOf } from '../../src/drawing/svg.ts';
import { vesselScene } from '../../src/drawing/vessel.ts';
import { voidCrossScene } from '../../src/drawing/voidCross.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import { readJob } from '../../src/job/readJob.ts';
import { planJob } from '../../src/plan/planner.ts';

const WIDTH = 180;
const SHOWN = 'V4';

export async function run(): Promise<void> {
  const read = readJob(readFileSync(new URL('../../fixtures/bogbean.json', import.meta.url)));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const { job, digest } = read.value;
  const result = await planJob(job, { effort: 'steady', seed: 1, jobDigest: digest });
  if (result.kind !== 'plan') throw new Error('nothing is placed');
  const place = job.voids.find((one) => one.void === SHOWN)!;
  const room = { width: WIDTH, height: 80 };
  const picture = stacked([
    ['Where the voids lie', vesselScene(job, result.plan, { width: WIDTH, height: 70 })],
    [
      `${place.void} ${place.name}, from above: bundles numbered in loading order`,
      voidPlanScene(place, result.plan, room),
    ],
    [
      'The same cut across, seen from aft',
      voidCrossScene(place, result.plan, place.length / 4, { ...room, height: 75 }),
    ],
  ]);
  const file = new URL('../../views/assets/bogbean.svg', import.meta.url);
  writeFileSync(file, `${svgOf(picture, { standalone: true })}\n`);
  console.log(`views/assets/bogbean.svg: ${result.plan.totals.bundles} bundles, ${result.plan.totals.placedMass} kg`);
}

/** Scenes one below the other, each under its caption, on white. */
function stacked(parts: [string, Scene][]): Scene {
  let y = 4;
  const shapes: Scene['shapes'] = [];
  for (const [caption, scene] of parts) {
    shapes.push(text('label', 4, y + 3, caption, 4, 'start', true));
    shapes.push(group({ x: (WIDTH - scene.width) / 2, y: y + 6 }, scene.shapes));
    y += scene.height + 12;
  }
  const title = 'Ballast of the Bogbean';
  const description = parts.map(([caption, scene]) => `${caption}. ${scene.description}`).join(' ');
  const sheet = { kind: 'rect' as const, role: 'labelOnDark' as const, x: 0, y: 0, width: WIDTH, height: y };
  return { width: WIDTH, height: y, title, description, shapes: [sheet, ...shapes] };
}
