/** A bundle's cross-section: every bar drawn true in its place, jointed bars marked, its outer size given. */
import { outerSize, sectionName } from '../job/section.ts';
import type { PlanBundle } from '../plan/plan.ts';
import type { Units } from '../units.ts';
import { barPlaces, barSection } from './barShape.ts';
import { dimensionAcross, dimensionUp, lengthOn, withUnit } from './scale.ts';
import { centredText, line, rect, type Scene, type Shape } from './scene.ts';
import { DRAWING_WORDS as W } from './words.ts';

export interface BundleSceneOptions {
  /** Room for the picture, mm. */
  width: number;
  height: number;
  /** Outer size with dimension lines; default true. */
  dimensions?: boolean;
  /** Numbers the bars in the order of `slots`; default false. */
  numbers?: boolean;
  units?: Units;
}

/** Half the side of the cross on a jointed bar, mm of paper. */
const CROSS = 2.2;

/** The cross-section as large as the room allows. A bar of two or three pieces carries a bold cross. */
export function bundleScene(bundle: PlanBundle, options: BundleSceneOptions): Scene {
  const dimensions = options.dimensions ?? true;
  const units = options.units ?? 'metric';
  const margin = dimensions ? { left: 6, top: 5.5 } : { left: 0.5, top: 0.5 };
  const { across, up } = bundle.size;
  const scale = Math.min(
    (options.width - margin.left - 0.5) / across,
    (options.height - margin.top - 0.5) / up,
    1, // never larger than life
  );
  const x = margin.left;
  const y = margin.top;
  const shapes: Shape[] = [rect('clearance', x, y, across * scale, up * scale)];
  shapes.push(...bundleSteel(bundle, x, y, scale, options.numbers ?? false));
  if (dimensions) {
    shapes.push(dimensionAcross(x, x + across * scale, y - 2, lengthOn(units, across, 'up')));
    shapes.push(dimensionUp(x - 2, y, y + up * scale, lengthOn(units, up, 'up')));
  }
  return {
    width: x + across * scale + 0.5,
    height: y + up * scale + 0.5,
    title: W.bundle(bundle.bundle),
    description: `${W.bundleInWords(bundle.slots.length, bundle.rows, withUnit(units, across, 'up'), withUnit(units, up, 'up'))} ${sectionName(bundle.section)}.`,
    shapes,
  };
}

/** The bars alone, the bundle's upper left corner at (`x`, `y`). */
export function bundleSteel(bundle: PlanBundle, x: number, y: number, scale: number, numbers = false): Shape[] {
  const shapes: Shape[] = [];
  const bar = outerSize(bundle.section, bundle.onEdge);
  // Drawn small, a cross no larger than its bar: it would lie over the bars beside it.
  const arm = Math.min(CROSS, 0.45 * Math.min(bar.across, bar.up) * scale);
  barPlaces(bundle).forEach((place, i) => {
    const px = x + place.across * scale;
    const py = y + (bundle.size.up - place.up) * scale;
    shapes.push(...barSection(bundle.section, bundle.onEdge, px, py, scale));
    if ((bundle.slots[i]?.length ?? 1) > 1) {
      shapes.push(
        line('joint', px - arm, py - arm, px + arm, py + arm),
        line('joint', px - arm, py + arm, px + arm, py - arm),
      );
    } else if (numbers) {
      shapes.push(centredText('label', px, py, String(i + 1), 2.6));
    }
  });
  return shapes;
}
