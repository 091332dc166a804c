import { expect, test } from 'vitest';
import { readableParts, readJobValue } from '../../src/job/readJob.ts';
import { jobDoubts } from '../../src/plan/jobDoubts.ts';

function told(more: object): string[] {
  const job = {
    format: 'kentledge-job/1',
    name: 'Slipped',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2000, count: 4 }],
    voids: [{ void: 'V1', length: 1100, width: 400, height: 250 }],
    ...more,
  };
  // What is doubtful is no fault.
  expect(readJobValue(job)).toMatchObject({ ok: true });
  const doubts = jobDoubts(readableParts(job)).map(({ path, text }) => `${path}: ${text}`);
  return doubts.filter((text) => !text.startsWith('voids'));
}

test('a kerf and a tolerance that no saw has are asked about', () => {
  expect(told({ saw: { kerf: 8, tolerance: 10 } })).toEqual([]);
  expect(told({ saw: { kerf: 30, tolerance: 20 } })).toEqual([
    'saw.kerf: Did you mean 3 mm? It is read in mm: few saws take more with one cut than 8 mm.',
    'saw.tolerance: Did you mean 2 mm? It is read in mm: few pieces cut at a stop are farther out than 10 mm.',
  ]);
  expect(told({ saw: { kerf: 100 } })[0]).toContain('Is 100 mm meant?');
});

test('a vessel wider than long, too stiff or too slow is asked about', () => {
  const her = { waterlineLength: 7.9, beam: 2.7, gm: 3, rollPeriod: 15 };
  expect(told({ vessel: her })).toEqual([]);
  expect(told({ vessel: { ...her, beam: 27 } })).toEqual([
    'vessel.beam: Did you mean 2.7 m? By this she is wider than her waterline is long (7.9 m): is one of the two in another unit, or a slip?',
  ]);
  expect(told({ vessel: { waterlineLength: 7.9, gm: 8.5, rollPeriod: 29 } })).toEqual([
    'vessel.gm: Did you mean 0.85 m? It is read in m: few vessels of her size have a GM over 3 m.',
    'vessel.rollPeriod: Did you mean 2.9 s? It is read in s: time ten rolls there and back, and divide by ten. Few small vessels take over 15 s.',
  ]);
  // A wide pontoon is stiff; a beam that is asked about says nothing of that.
  expect(told({ vessel: { waterlineLength: 12, beam: 9, gm: 4.5 } })).toEqual([]);
  expect(told({ vessel: { waterlineLength: 7.9, beam: 27, gm: 4.5 } })).toHaveLength(2);
});

test('a GM and a roll wanted are asked about alike', () => {
  const wanted = (effect: object) => told({ vessel: { displacement: 4900 }, aims: { effect } }).join();
  expect(wanted({ gm: 8.5 })).toContain('aims.effect.gm: Did you mean 0.85 m?');
  expect(wanted({ period: 29 })).toContain('aims.effect.period: Did you mean 2.9 s?');
});
