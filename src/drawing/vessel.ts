/**
 * Where the voids lie along the vessel, from above, the bow to the right and starboard below. Her lines are not known, so
 * none are drawn: only the centreline, the ends of the waterline where its length is stated, and the voids to scale.
 */
import type { Job } from '../job/job.ts';
import { contentsOf } from '../plan/contents.ts';
import type { Plan } from '../plan/plan.ts';
import { vesselPoint } from '../stow/laid.ts';
import type { Units } from '../units.ts';
import { laidVoid } from './laid.ts';
import { chooseScale, scaleBar } from './scale.ts';
import { group, line, polyline, rect, type Scene, type Shape, text } from './scene.ts';
import { type Area, markBoxes, meet } from './vesselMarks.ts';
import { DRAWING_WORDS as W } from './words.ts';

export interface VesselSceneOptions {
  /** Room for the picture, mm. */
  width: number;
  height: number;
  units?: Units;
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
  const height = py(most.y) + MARGIN.bottom;
  const width = px(most.x) + MARGIN.x;
  const ends = { aft: px(least.x) - 4.5, forward: px(most.x) + 6.5, y: py(0) };
  const areas = boxes.map(({ space, x, y, length, width: across }) => {
    return { mark: space.void, x: px(x), y: py(y), width: length / scale, height: across / scale };
  });
  const order = [...areas.keys()].sort((p, q) => areaOf(areas[q]!) - areaOf(areas[p]!));
  for (const n of order) {
    const { space } = boxes[n]!;
    const { x, y, width: w, height: h } = areas[n]!;
    const role = filled.has(space.void) ? 'bundle' : 'hollow';
    shapes.push(group({ x: 0, y: 0 }, [rect(role, x, y, w, h)], space.void, space.name));
  }
  // Where voids lie over each other from above, what is hidden of one is dashed.
  for (const area of areas) if (areas.some((other) => other !== area && meet(area, other))) shapes.push(dashed(area));
  const frame = { x: 0.5, y: 0.5, width: width - 1, height: height - 7 };
  const words = [ends.aft, ends.forward].map((x) => ({ x: x - 3, y: ends.y - 8, width: 4, height: 16 }));
  shapes.push(...markBoxes(areas, frame, words).filter((mark) => mark !== null));
  const bar = scaleBar(scale, options.width * 0.3, options.units ?? 'metric');
  const { least: aft, most: forward } = W.ends['fore-and-aft'];
  shapes.push({ ...text('note', ends.aft, ends.y, aft, 2.6, 'middle'), turn: -90 });
  shapes.push({ ...text('note', ends.forward, ends.y, forward, 2.6, 'middle'), turn: -90 });
  shapes.push(group({ x: px(least.x), y: height - 5.5 }, bar.shapes));
  return {
    width,
    height,
    title: W.vessel,
    description: W.vesselInWords(boxes.map((box) => box.space.void).join(', ')),
    shapes,
  };
}

function areaOf({ width, height }: Area): number {
  return width * height;
}

function dashed({ x, y, width, height }: Area): Shape {
  const [right, below] = [x + width, y + height];
  const corners = [
    { x, y },
    { x: right, y },
    { x: right, y: below },
    { x, y: below },
    { x, y },
  ];
  return polyline('clearance', corners);
}
