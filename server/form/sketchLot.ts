/** A lot drawn as typed: its section, and a bar with what is squared off and spoiled. */
import { barScene } from '../../src/drawing/bar.ts';
import { barSection } from '../../src/drawing/barShape.ts';
import { lengthOn } from '../../src/drawing/scale.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import { svgOf } from '../../src/drawing/svg.ts';
import { JOB_FORMAT, type Job, jobSchema, type Lot } from '../../src/job/job.ts';
import { barLengths } from '../../src/job/lot.ts';
import { outerSize, sectionName } from '../../src/job/section.ts';
import type { Units } from '../../src/units.ts';
import { isRecord } from './path.ts';

/** Sides of the square that a section is drawn in, and the length of a drawn bar, mm of paper. */
const SECTION = 22;
const BAR = 120;

/** SVG texts; each null where what was typed is not enough to draw it, or does not fit together. */
export interface LotSketch {
  section: string | null;
  bar: string | null;
}

export function sketchLot(draft: unknown, index: number, units: Units = 'metric'): LotSketch {
  const job = jobOfLot(draft, index);
  const lot = job?.pile[0];
  if (!job || !lot) return { section: null, bar: null };
  return {
    section: svgOf(sectionScene(lot, units), { id: `lot-${index}-section` }),
    bar: drawBar(job, lot, index, units),
  };
}

/** Nothing of the job but the lot and the saw, with the void that a job has to have. */
function jobOfLot(draft: unknown, index: number): Job | null {
  if (!isRecord(draft) || !Array.isArray(draft.pile)) return null;
  const rest = { format: JOB_FORMAT, name: 'a lot', voids: [{ void: 'V', length: 1000, width: 100, height: 100 }] };
  const pile = [draft.pile[index]];
  const parsed = jobSchema.safeParse({ ...rest, pile, saw: draft.saw ?? {} });
  return parsed.data ?? jobSchema.safeParse({ ...rest, pile }).data ?? null;
}

function sectionScene({ section }: Lot, units: Units): Scene {
  const { across, up } = outerSize(section);
  const scale = Math.min((SECTION - 2) / Math.max(across, up), 1);
  const shapes = isSolid(section) ? barSection(section, false, SECTION / 2, SECTION / 2, scale) : [];
  const title = sectionName(section);
  return {
    width: SECTION,
    height: SECTION,
    title,
    description: `${title}, ${lengthOn(units, across)} across and ${lengthOn(units, up)} up as it lies.`,
    shapes,
  };
}

/** False of walls that are thicker than what they surround. */
function isSolid(section: Lot['section']): boolean {
  if (section.shape === 'tube') return 2 * section.wall < section.diameter;
  if (section.shape === 'box') return 2 * section.wall < Math.min(section.width, section.height);
  if (section.shape === 'angle') return section.thickness < Math.min(section.leg, section.otherLeg ?? section.leg);
  return true;
}

/** The longest bar; only where something of it is lost, for a whole bar shows nothing. */
function drawBar(job: Job, lot: Lot, index: number, units: Units): string | null {
  if (lot.spoiled.length === 0 || (lot.length === undefined && lot.lengths === undefined)) return null;
  const length = barLengths(lot).reduce((longest, one) => Math.max(longest, one), 0);
  if (lot.spoiled.some(({ from, to }) => from >= to || to > length)) return null;
  const bar = { bar: `of lot ${lot.lot}`, lot: lot.lot, length, pieces: [], remainders: [] };
  return svgOf(barScene(job, bar, { width: BAR, numbers: false, units }), { id: `lot-${index}-bar` });
}
