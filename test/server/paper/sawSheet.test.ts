/** The saw sheet tells which pieces need no cut, and asks for no sawing of them. */
import { expect, test } from 'vitest';
import type { Plan } from '../../../src/plan/plan.ts';
import { textOf } from './readPdf.ts';
import { read, TRIAL } from './writePaper.ts';

test('a bar as long as its piece is told not to be cut, without the cautions of sawing', async () => {
  const { job, plan } = TRIAL;
  const zinc = plan.bars.find(({ lot }) => lot === 'B')!;
  const [piece] = zinc.pieces;
  const length = piece!.to - piece!.from;
  const uncut = { ...zinc, length, pieces: [{ ...piece!, from: 0, to: length }], remainders: [] };
  const told = async (bars: Plan['bars']) =>
    textOf(await read('saw-sheet.pdf', job, { ...plan, bars })).replace(/\s+/g, ' ');
  const cut = await told([zinc]);
  expect(cut).not.toMatch(/no cut/i);
  expect(cut).toContain('Zinc: saw it cold and slow');
  const whole = await told([uncut]);
  expect(whole).toContain(
    `1 piece needs no cut: its bar is as long as that. Strike out any older number and write the new one: ${uncut.bar}.`,
  );
  expect(whole).toContain('NO CUT: it is as long as its piece.');
  expect(whole).not.toContain('Zinc: saw it cold and slow');
});
