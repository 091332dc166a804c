/** A bar's section drawn true, and where each bar of a bundle lies in the bundle's cross-section. */
import { outerSize, type Section } from '../job/section.ts';
import type { PlanBundle } from '../plan/plan.ts';
import { circle, line, polygon, rect, type Shape } from './scene.ts';

/** Middle of a bar, mm from the bundle's least-across side and from its underside. */
export interface BarPlace {
  across: number;
  up: number;
}

/**
 * The middle of every bar in the order of `slots`: bottom row first, least across first. The steel stands in the middle
 * of `size`, so that wrap and bow are shared by both sides; a short top row of a grid stands at the least-across side;
 * nested rows of equal count shift by half a bar, right and left by turns.
 */
export function barPlaces(bundle: PlanBundle): BarPlace[] {
  const bar = outerSize(bundle.section, bundle.onEdge);
  const step = bundle.arrangement === 'nested' ? bar.up * (Math.sqrt(3) / 2) : bar.up;
  const starts = rowStarts(bundle, bar.across);
  const widest = Math.max(...bundle.columns.map((count, row) => starts[row]! + count * bar.across));
  const high = bar.up + (bundle.rows - 1) * step;
  const left = (bundle.size.across - widest) / 2;
  const bottom = (bundle.size.up - high) / 2;
  const places: BarPlace[] = [];
  bundle.columns.forEach((count, row) => {
    for (let i = 0; i < count; i += 1) {
      places.push({
        across: left + starts[row]! + (i + 0.5) * bar.across,
        up: bottom + row * step + bar.up / 2,
      });
    }
  });
  return places;
}

/** Where each row begins, across, the least being nought. */
function rowStarts(bundle: PlanBundle, barAcross: number): number[] {
  const starts = [0];
  if (bundle.arrangement === 'grid') return bundle.columns.map(() => 0);
  let side = 1;
  for (let row = 1; row < bundle.columns.length; row += 1) {
    const change = bundle.columns[row]! - bundle.columns[row - 1]!;
    let shift = (-change * barAcross) / 2;
    if (change === 0) {
      shift = (side * barAcross) / 2;
      side = -side;
    }
    starts.push(starts[row - 1]! + shift);
  }
  const least = Math.min(...starts);
  return starts.map((start) => start - least);
}

/** Shapes of one bar's section at `scale` paper mm per mm, its middle at (`x`, `y`); drawn true save for ribs and radii. */
export function barSection(section: Section, onEdge: boolean, x: number, y: number, scale: number): Shape[] {
  const { across, up } = outerSize(section, onEdge);
  const w = across * scale;
  const h = up * scale;
  const left = x - w / 2;
  const top = y - h / 2;
  switch (section.shape) {
    case 'round':
      return [circle('steel', x, y, w / 2)];
    case 'deformed':
      return [circle('steel', x, y, w / 2), circle('cutEnd', x, y, (section.nominal / 2) * scale)];
    case 'tube':
      return [circle('steel', x, y, w / 2), circle('hollow', x, y, w / 2 - section.wall * scale)];
    case 'square':
    case 'flat':
      return [rect('steel', left, top, w, h)];
    case 'box': {
      const wall = section.wall * scale;
      return [rect('steel', left, top, w, h), rect('hollow', left + wall, top + wall, w - 2 * wall, h - 2 * wall)];
    }
    case 'hexagon':
      return [polygon('steel', hexagonCorners(x, y, w, h, onEdge))];
    case 'angle': {
      const t = section.thickness * scale;
      const corner = [
        [left, top],
        [left + t, top],
        [left + t, top + h - t],
        [left + w, top + h - t],
        [left + w, top + h],
        [left, top + h],
      ] as const;
      return [
        polygon(
          'steel',
          corner.map(([px, py]) => ({ x: px, y: py })),
        ),
      ];
    }
    case 'other':
      return [
        rect('steel', left, top, w, h),
        line('cutEnd', left, top, left + w, top + h),
        line('cutEnd', left, top + h, left + w, top),
      ];
  }
}

function hexagonCorners(x: number, y: number, w: number, h: number, onEdge: boolean): { x: number; y: number }[] {
  const flat = [
    [-0.5, 0],
    [-0.25, -0.5],
    [0.25, -0.5],
    [0.5, 0],
    [0.25, 0.5],
    [-0.25, 0.5],
  ] as const;
  return flat.map(([p, q]) => (onEdge ? { x: x + q * w, y: y + p * h } : { x: x + p * w, y: y + q * h }));
}
