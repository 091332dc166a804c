import { describe, expect, it } from 'vitest';
import {
  massPerMetre,
  outerSize,
  rolls,
  type Section,
  sectionKey,
  steelArea,
  turnsOnEdge,
} from '../../src/job/section.ts';

/** Published masses per metre. `within` is the tolerance, %: what rounding in the list and neglected radii account for. */
interface Published {
  source: string;
  density: number;
  within: number;
  rows: [section: Section, kgPerMetre: number][];
}

const PUBLISHED: Published[] = [
  {
    source: 'reinforcement suppliers’ tables to BS 4449 and BS 8666',
    density: 7850,
    within: 0.2,
    rows: [
      [{ shape: 'deformed', nominal: 6 }, 0.222],
      [{ shape: 'deformed', nominal: 8 }, 0.395],
      [{ shape: 'deformed', nominal: 10 }, 0.616],
      [{ shape: 'deformed', nominal: 12 }, 0.888],
      [{ shape: 'deformed', nominal: 16 }, 1.579],
      [{ shape: 'deformed', nominal: 20 }, 2.466],
      [{ shape: 'deformed', nominal: 25 }, 3.854],
      [{ shape: 'deformed', nominal: 32 }, 6.313],
      [{ shape: 'deformed', nominal: 40 }, 9.864],
      [{ shape: 'deformed', nominal: 50 }, 15.413],
    ],
  },
  {
    source: 'a steel exporter’s theoretical weights',
    density: 7850,
    within: 1.0,
    rows: [
      [{ shape: 'round', diameter: 14 }, 1.21],
      [{ shape: 'round', diameter: 18 }, 2.0],
      [{ shape: 'round', diameter: 22 }, 3.0],
      [{ shape: 'round', diameter: 28 }, 4.83],
      [{ shape: 'round', diameter: 36 }, 7.99],
    ],
  },
  {
    source: 'a metal stockist’s list of bar to EN 10060',
    density: 7850,
    within: 0.7,
    rows: [
      [{ shape: 'round', diameter: 10 }, 0.62],
      [{ shape: 'round', diameter: 20 }, 2.47],
      [{ shape: 'round', diameter: 40 }, 9.86],
      [{ shape: 'round', diameter: 60 }, 22.2],
      [{ shape: 'round', diameter: 80 }, 39.4],
    ],
  },
  {
    source: 'a construction site’s list, one and two decimals',
    density: 7850,
    within: 1.2,
    rows: [
      [{ shape: 'square', side: 6 }, 0.28],
      [{ shape: 'square', side: 8 }, 0.5],
      [{ shape: 'square', side: 10 }, 0.78],
      [{ shape: 'square', side: 12 }, 1.13],
      [{ shape: 'square', side: 16 }, 2.01],
      [{ shape: 'square', side: 20 }, 3.14],
      [{ shape: 'square', side: 25 }, 4.91],
    ],
  },
  {
    source: 'a building site’s table, two decimals',
    density: 7850,
    within: 1.2,
    rows: [
      [{ shape: 'hexagon', acrossFlats: 8 }, 0.44],
      [{ shape: 'hexagon', acrossFlats: 9 }, 0.55],
      [{ shape: 'hexagon', acrossFlats: 10 }, 0.68],
      [{ shape: 'hexagon', acrossFlats: 11 }, 0.82],
      [{ shape: 'hexagon', acrossFlats: 12 }, 0.98],
    ],
  },
  {
    source: 'a construction site’s list, one and two decimals',
    density: 7850,
    within: 4.5,
    rows: [
      [{ shape: 'angle', leg: 25, thickness: 3 }, 1.1],
      [{ shape: 'angle', leg: 30, thickness: 3 }, 1.4],
      [{ shape: 'angle', leg: 40, thickness: 4 }, 2.4],
      [{ shape: 'angle', leg: 50, thickness: 5 }, 3.8],
      [{ shape: 'angle', leg: 50, thickness: 6 }, 4.5],
    ],
  },
  {
    source: 'a stainless distributor’s table at 7950 kg/m³',
    density: 7950,
    within: 1,
    rows: [
      [{ shape: 'round', diameter: 10 }, 0.63],
      [{ shape: 'round', diameter: 20 }, 2.5],
      [{ shape: 'round', diameter: 25 }, 3.9],
      [{ shape: 'round', diameter: 40 }, 9.99],
      [{ shape: 'round', diameter: 50 }, 15.6],
      [{ shape: 'hexagon', acrossFlats: 16 }, 1.76],
      [{ shape: 'hexagon', acrossFlats: 20 }, 2.74],
      [{ shape: 'hexagon', acrossFlats: 25 }, 4.29],
      [{ shape: 'hexagon', acrossFlats: 32 }, 7.03],
      [{ shape: 'hexagon', acrossFlats: 50 }, 17.2],
      [{ shape: 'square', side: 10 }, 0.8],
      [{ shape: 'square', side: 20 }, 3.18],
      [{ shape: 'square', side: 25 }, 4.97],
      [{ shape: 'square', side: 40 }, 12.72],
      [{ shape: 'square', side: 50 }, 19.9],
    ],
  },
];

describe.each(PUBLISHED)('mass per metre by $source', ({ density, within, rows }) => {
  it.each(rows)('%o is %d kg/m', (section, kgPerMetre) => {
    const computed = massPerMetre(section, density)!;
    expect(Math.abs(computed / kgPerMetre - 1) * 100).toBeLessThanOrEqual(within);
  });
});

it('the tables hold 37 carbon and 15 stainless rows', () => {
  const count = (density: number) =>
    PUBLISHED.filter((list) => list.density === density).flatMap((list) => list.rows).length;
  expect([count(7850), count(7950)]).toEqual([37, 15]);
});

describe('every shape', () => {
  const shapes: [Section, across: number, up: number, area: number | null][] = [
    [{ shape: 'round', diameter: 20 }, 20, 20, 100 * Math.PI],
    [{ shape: 'square', side: 20 }, 20, 20, 400],
    [{ shape: 'flat', width: 50, thickness: 10 }, 50, 10, 500],
    [{ shape: 'hexagon', acrossFlats: 30 }, 34.6410161514, 30, 779.4228634],
    [{ shape: 'deformed', nominal: 20 }, 23, 23, 100 * Math.PI],
    [{ shape: 'angle', leg: 50, thickness: 5 }, 50, 50, 475],
    [{ shape: 'angle', leg: 60, otherLeg: 40, thickness: 5 }, 60, 40, 475],
    [{ shape: 'tube', diameter: 50, wall: 5 }, 50, 50, 225 * Math.PI],
    [{ shape: 'box', width: 60, height: 40, wall: 3 }, 60, 40, 564],
    [{ shape: 'other', width: 40, height: 22 }, 40, 22, null],
  ];
  it.each(shapes)('%o has its outer size and its area', (section, across, up, area) => {
    expect(outerSize(section).across).toBeCloseTo(across, 6);
    expect(outerSize(section).up).toBeCloseTo(up, 6);
    expect(outerSize(section, true)).toEqual({ across: outerSize(section).up, up: outerSize(section).across });
    if (area === null) expect(steelArea(section)).toBeNull();
    else expect(steelArea(section)).toBeCloseTo(area, 5);
  });

  it('that rolls is round all about', () => {
    expect(shapes.filter(([section]) => rolls(section)).map(([section]) => section.shape)).toEqual([
      'round',
      'deformed',
      'tube',
    ]);
  });

  it('can lie on edge where it is not as wide as it is high', () => {
    expect(shapes.filter(([section]) => turnsOnEdge(section)).map(([section]) => section.shape)).toEqual([
      'flat',
      'hexagon',
      'angle',
      'box',
      'other',
    ]);
  });
});

it('the key of a section does not depend on the order of its fields, nor on absent ones', () => {
  const section = { thickness: 5, shape: 'angle', leg: 50, otherLeg: undefined } as unknown as Section;
  expect(sectionKey(section)).toBe(sectionKey({ shape: 'angle', leg: 50, thickness: 5 }));
  expect(sectionKey(section)).not.toBe(sectionKey({ shape: 'angle', leg: 50, thickness: 6 }));
});
