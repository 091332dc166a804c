/**
 * Steel sections: outer size as the bar lies, area of steel, mass per metre.
 *
 * Plane geometry with radii neglected; published kg/m at 7850 kg/m³ agree within the tolerances of the section tests.
 * Sizes mm, areas mm², density kg/m³, mass per metre kg/m.
 */
import type { z } from 'zod';
import type { sectionSchema } from './sectionSchema.ts';

export type Section = z.infer<typeof sectionSchema>;
export type Shape = Section['shape'];

/** Ribs make a deformed bar this much wider than its nominal diameter. */
const RIB_FACTOR = 1.15;

/** Outer size of a bar as it lies: `across` × `up`, mm. `onEdge` swaps the two. */
export function outerSize(section: Section, onEdge = false): { across: number; up: number } {
  const flat = lyingSize(section);
  return onEdge ? { across: flat.up, up: flat.across } : flat;
}

function lyingSize(section: Section): { across: number; up: number } {
  switch (section.shape) {
    case 'round':
    case 'tube':
      return { across: section.diameter, up: section.diameter };
    case 'square':
      return { across: section.side, up: section.side };
    case 'flat':
      return { across: section.width, up: section.thickness };
    case 'hexagon':
      return { across: (2 / Math.sqrt(3)) * section.acrossFlats, up: section.acrossFlats };
    case 'deformed':
      return { across: RIB_FACTOR * section.nominal, up: RIB_FACTOR * section.nominal };
    case 'angle':
      return { across: section.leg, up: section.otherLeg ?? section.leg };
    case 'box':
    case 'other':
      return { across: section.width, up: section.height };
  }
}

/** Area of steel, mm²; null for `other`, whose mass per metre must be weighed. */
export function steelArea(section: Section): number | null {
  switch (section.shape) {
    case 'round':
      return (Math.PI / 4) * section.diameter ** 2;
    case 'square':
      return section.side ** 2;
    case 'flat':
      return section.width * section.thickness;
    case 'hexagon':
      return (Math.sqrt(3) / 2) * section.acrossFlats ** 2;
    case 'deformed':
      return (Math.PI / 4) * section.nominal ** 2;
    case 'angle':
      return section.thickness * (section.leg + (section.otherLeg ?? section.leg) - section.thickness);
    case 'tube':
      return (Math.PI / 4) * (section.diameter ** 2 - (section.diameter - 2 * section.wall) ** 2);
    case 'box':
      return section.width * section.height - (section.width - 2 * section.wall) * (section.height - 2 * section.wall);
    case 'other':
      return null;
  }
}

/** Mass per metre, kg/m, of a section in a material of `density`; null for `other`. */
export function massPerMetre(section: Section, density: number): number | null {
  const area = steelArea(section);
  return area === null ? null : area * density * 1e-6;
}

/** True of bars that roll: they are nested or laid in one row, never stacked square. */
export function rolls(section: Section): boolean {
  return section.shape === 'round' || section.shape === 'deformed' || section.shape === 'tube';
}

/** True where laying the bar on edge gives another outer size. */
export function turnsOnEdge(section: Section): boolean {
  const { across, up } = lyingSize(section);
  return across !== up;
}

/** A key that is the same for the same section, whatever order its fields were written in. */
export function sectionKey(section: Section): string {
  const fields = Object.entries(section).filter(([, value]) => value !== undefined);
  fields.sort(([a], [b]) => (a < b ? -1 : 1));
  return JSON.stringify(fields);
}

/** A short name in the trade's words: `round 32`, `flat 40 × 20`, `tube 48 × 3 wall`. */
export function sectionName(section: Section): string {
  switch (section.shape) {
    case 'round':
      return `round ${section.diameter}`;
    case 'square':
      return `square ${section.side}`;
    case 'flat':
      return `flat ${section.width} × ${section.thickness}`;
    case 'hexagon':
      return `hexagon ${section.acrossFlats}`;
    case 'deformed':
      return `deformed ${section.nominal}`;
    case 'angle':
      return `angle ${section.leg} × ${section.otherLeg ?? section.leg} × ${section.thickness}`;
    case 'tube':
      return `tube ${section.diameter} × ${section.wall} wall`;
    case 'box':
      return `box ${section.width} × ${section.height} × ${section.wall} wall`;
    case 'other':
      return `other ${section.width} × ${section.height}`;
  }
}
