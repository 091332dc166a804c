import { describe, expect, test } from 'vitest';
import { printFeet, printPounds } from '../../../src/units.ts';
import { outside, overlapping, textOf } from './readPdf.ts';
import { PAIRS, read } from './writePaper.ts';

const feet = { feet: true, paper: 'letter' } as const;

/** The long plan has no figure of another kind than the short ones. */
const SHORT = PAIRS.filter(([name]) => name !== '300 bundles');

describe.each(SHORT)('feet, inches and pounds on the papers of %s', (_, { job, plan }) => {
  test.each(['bundle-sheet.pdf', 'stowage.pdf', 'access-cards.pdf', 'balance.pdf'])(
    '%s keeps to its page, and has none where they are not wanted',
    async (file) => {
      const pages = await read(file, job, plan, feet);
      expect([...outside(pages), ...overlapping(pages)]).toEqual([]);
      expect(textOf(await read(file, job, plan))).not.toMatch(/\d lb\b|\d"/);
    },
  );

  test('every mass to tie and stow by is there in pounds, every length to lay it by in inches', async () => {
    const tied = textOf(await read('bundle-sheet.pdf', job, plan, feet)).replaceAll(/\s+/g, ' ');
    const stowed = textOf(await read('stowage.pdf', job, plan, feet)).replaceAll(/\s+/g, ' ');
    for (const { mass, length, at, limit } of plan.bundles) {
      expect(tied).toContain(`${printPounds(mass)} ±`);
      expect(tied).toContain(`${length} mm (${printFeet(length)})`);
      expect(tied).toContain(`(${printPounds(limit)}) on the scale`);
      expect(stowed).toContain(`${printPounds(mass)} · `);
      expect(stowed).toContain(`${printFeet(at.along)} / ${printFeet(at.across)}`);
    }
  });
});
