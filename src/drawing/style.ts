/**
 * How each role is drawn: ink on white that stays clear in black and white; the one warm and the one cold accent only
 * repeat what hatching, dashes or words already say. A page may override any of it by the class `k-<role>`.
 */
import type { Role } from './scene.ts';

/** `width` and `dash` in mm; an absent stroke or fill is none. Text takes its colour from `fill`. */
export interface Style {
  fill?: string;
  stroke?: string;
  width?: number;
  dash?: readonly number[];
}

export const INK = '#1c1a17';
export const QUIET = '#55504a';
const PAPER = '#ffffff';
/** Rust, for what must be seen. */
export const WARM = '#8c3a12';
/** Slate, for what is measured. */
export const COLD = '#1f4b5e';

export const STYLES: Readonly<Record<Role, Style>> = {
  void: { stroke: INK, width: 0.5 },
  clearance: { stroke: QUIET, width: 0.18, dash: [1.2, 0.9] },
  keepOut: { fill: PAPER, stroke: WARM, width: 0.4 },
  opening: { stroke: COLD, width: 0.45, dash: [2.2, 1] },
  bearer: { fill: '#e4d8bd', stroke: INK, width: 0.2 },
  drain: { fill: '#dde6e9', stroke: COLD, width: 0.12 },
  doubt: { stroke: WARM, width: 0.7 },
  /** Under a ring or a frame, which is then seen on dark, too. */
  halo: { stroke: PAPER, width: 2 },
  strap: { stroke: INK, width: 0.9 },
  /** What has no stated place. */
  unsettled: { stroke: INK, width: 0.35, dash: [1.3, 0.8] },
  hatch: { stroke: INK, width: 0.15 },
  dunnage: { stroke: QUIET, width: 0.15, fill: '#e9e2d3' },
  chock: { fill: '#f6efdf', stroke: QUIET, width: 0.15 },
  bundle: { fill: '#f1efea', stroke: INK, width: 0.25 },
  marked: { fill: INK, stroke: INK, width: 0.25 },
  /** Under a number, so that no line passes through it. */
  plate: { fill: '#f1efea' },
  darkPlate: { fill: INK },
  faint: { stroke: '#8b857c', width: 0.15 },
  steel: { fill: '#c9c8c4', stroke: INK, width: 0.2 },
  hollow: { fill: PAPER, stroke: INK, width: 0.2 },
  cutEnd: { stroke: INK, width: 0.15 },
  joint: { stroke: INK, width: 0.45 },
  spoiled: { fill: PAPER, stroke: INK, width: 0.2 },
  keep: { fill: PAPER, stroke: INK, width: 0.3, dash: [2, 1] },
  scrap: { fill: PAPER, stroke: QUIET, width: 0.2, dash: [0.6, 0.6] },
  kerf: { stroke: INK, width: 0.4 },
  dimension: { stroke: COLD, width: 0.18 },
  guide: { stroke: COLD, width: 0.18, dash: [3, 1, 0.6, 1] },
  scaleBar: { fill: INK, stroke: INK, width: 0.15 },
  ink: { fill: INK },
  label: { fill: INK },
  labelOnDark: { fill: PAPER },
  note: { fill: QUIET },
};
