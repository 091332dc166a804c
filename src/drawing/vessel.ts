/**
 * Where the voids lie along the vessel, from above, the bow to the right and starboard below. Her lines are not known, so
 * none are drawn: only the centreline, the ends of the waterline where its length is stated, and the voids to scale.
 */
import type { Job } from '../job/job.ts';
import { contentsOf } from '../plan/contents.ts';
import type { Plan } from '../plan/plan.ts';
import { vesselPoint } from '../stow/laid.ts';
import { laidVoid } from './laid.ts';
import { fitSize } from './letter.ts';
import { chooseScale, scaleBar } from './scale.ts';
import { centredText, group, line, rect, type Scene, type Shape, text } from './scene.ts';
import { DRAWING_WORDS as W } from './words.ts';

export interface VesselSceneOptions {
  /** Room for the picture, mm. */
  width: number;
  height: number;
}

const MARGIN = { x: 8, top: 4, bottom: 9 };

export function vesselScene(job: Job, plan: Plan, options: VesselSceneOptions): Scene {
  const filled = new Set([...plan.bundles, ...contentsOf(job)].map((each) => each.void));
  const boxes = job.voids.map((space) => {
    const laid = laidVoid(space, plan);
    const a = vesselPoint(laid, 0, -laid.width / 2, 0);
    const b = vesselPoint(laid, laid.length, laid.width / 2, 0);
    return { space, x: a.x * 1000, y: a.y * 1000, length: (b.x - a.x) * 1000, width: (b.y - a.y) * 1000 };
  });
  const waterline = (job.vessel?.waterlineLength ?? 0) * 1000;
  const least = { x: Math.min(0, ...boxes.map((box) => box.x)), y: Math.min(-100, ...boxes.map((box) => box.y)) };
  const most = {
    x: Math.max(waterline, ...boxes.map((box) => box.x + box.length)),
    y: Math.max(100, ...boxes.map((box) => box.y + box.width)),
  };
  const scale = chooseScale(
    most.x - least.x,
    most.y - least.y,
    options.width - 2 * MARGIN.x,
    options.height - MARGIN.top - MARGIN.bottom,
  );
  const px = (x: number) => MARGIN.x + (x - least.x) / scale;
  const py = (y: number) => MARGIN.top + (y - least.y) / scale;
  const shapes: Shape[] = [line('guide', px(least.x) - 3, py(0), px(most.x) + 3, py(0))];
  for (const x of waterline > 0 ? [0, waterline] : [])
    shapes.push(line('dimension', px(x), py(least.y), px(x), py(most.y)));
  const middles: { x: number; y: number }[] = [];
  for (const box of boxes) {
    const [x, y, w, h] = [px(box.x), py(box.y), box.length / scale, box.width / scale];
    const size = fitSize(box.space.void, w - 0.5, Math.min(3, h), 1);
    const middle = { x: x + w / 2, y: y + h / 2 };
    // Where voids lie over each other from above, the first name stands and the later ones give way.
    const taken = middles.some((other) => Math.abs(other.x - middle.x) < 6 && Math.abs(other.y - middle.y) < 3.2);
    const label = size === null || taken ? [] : [centredText('label', middle.x, middle.y, box.space.void, size)];
    if (label.length > 0) middles.push(middle);
    const role = filled.has(box.space.void) ? 'bundle' : 'hollow';
    shapes.push(group({ x: 0, y: 0 }, [rect(role, x, y, w, h), ...label], box.space.void, box.space.name));
  }
  const height = py(most.y) + MARGIN.bottom;
  const bar = scaleBar(scale, options.width * 0.3);
  const { least: aft, most: forward } = W.ends['fore-and-aft'];
  shapes.push({ ...text('note', px(least.x) - 4.5, py(0), aft, 2.6, 'middle'), turn: -90 });
  shapes.push({ ...text('note', px(most.x) + 6.5, py(0), forward, 2.6, 'middle'), turn: -90 });
  shapes.push(group({ x: px(least.x), y: height - 5.5 }, bar.shapes));
  return {
    width: px(most.x) + MARGIN.x,
    height,
    title: W.vessel,
    description: W.vesselInWords(boxes.map((box) => box.space.void).join(', ')),
    shapes,
  };
}
