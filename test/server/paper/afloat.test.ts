/** Lifting, hold-down and balance on paper. */
import { describe, expect, test } from 'vitest';
import { holdDownSchema } from '../../../src/job/holdDown.ts';
import type { Job } from '../../../src/job/job.ts';
import { overlapping, readPdf, textOf } from './readPdf.ts';
import { read, TRIAL, write } from './writePaper.ts';

describe('lifting', () => {
  test('a bundle over the guide is called out on its tag, its bundle sheet and its stowage sheet', async () => {
    const handling = { reach: 600, start: 750, end: 0, twist: 60 };
    const voids = TRIAL.job.voids.map((space) => (space.void === 'V1' ? { ...space, handling } : space));
    const job = { ...TRIAL.job, voids };
    for (const file of ['tags.pdf', 'bundle-sheet.pdf', 'stowage.pdf']) {
      const pages = await readPdf(await write(file, job, TRIAL.plan));
      expect(textOf(pages)).toContain('TWO PEOPLE or a mechanical aid: 9.5 kg is over the guide of');
      expect(overlapping(pages)).toEqual([]);
    }
  });
});

describe('hold-down sheets', () => {
  const withHold = (carries: number): Job => ({
    ...TRIAL.job,
    voids: TRIAL.job.voids.map((space) => {
      const by = { by: 'the floors', carries };
      const holdDown = holdDownSchema.parse({
        straps: [{ kind: 'over', count: 4, lashingCapacity: carries, angle: 60 }],
        blocked: { forward: by, aft: by, port: by, starboard: by },
      });
      return space.void === 'V1' ? { ...space, holdDown } : space;
    }),
  });

  test('say what carries each load, and NOT CARRIED where nothing does', async () => {
    const strong = textOf(await readPdf(await write('hold-down.pdf', withHold(50), TRIAL.plan)));
    expect(strong).toContain('blocked by the floors');
    expect(strong).toContain('half or less');
    expect(strong).not.toContain('NOT CARRIED');
    const weak = textOf(await readPdf(await write('hold-down.pdf', withHold(0.1), TRIAL.plan)));
    expect(weak).toContain('NOT CARRIED');
  });

  test('NOT SECURED goes from the sheets of a held void alone', async () => {
    const pages = await readPdf(await write('stowage.pdf', withHold(50), TRIAL.plan));
    const secured = pages.map((page) => !textOf([page]).includes('NOT SECURED'));
    const named = pages.map((page) => textOf([page]).includes('V1 Abaft the mast step'));
    expect(secured[0]).toBe(false);
    expect(secured[named.indexOf(true)]).toBe(true);
    expect(secured.at(-1)).toBe(false);
  });
});

describe('balance sheet', () => {
  test('adds up moments and says what is not known', async () => {
    const text = textOf(await read('balance.pdf', TRIAL.job, TRIAL.plan));
    const mass = TRIAL.plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
    expect(text).toContain(String(Math.round(mass * 10) / 10));
    expect(text).toContain('not known');
  });

  test('names a limit that is passed on the stowage sheets too', async () => {
    const vessel = {
      displacement: 8000,
      displacementMost: 8010,
      lcf: 4.7,
      waterlineLength: 9,
      beam: 3,
      kgPerCm: 200,
      kgmPerCm: 100,
    };
    const job = { ...TRIAL.job, vessel };
    for (const file of ['balance.pdf', 'stowage.pdf', 'ballast-register.pdf']) {
      expect(textOf(await readPdf(await write(file, job, TRIAL.plan))), file).toContain('NOT ENOUGH');
    }
  });
});
