import { describe, expect, test } from 'vitest';
import { showForm } from '../../server/form/show.ts';
import { readJobValue } from '../../src/job/readJob.ts';

type Range = [number, number];

const STATIONS = [0, 1100].map((along) => ({
  along,
  at: [
    { up: 0, from: -70, to: 70 },
    { up: 160, from: -210, to: 150 },
  ],
}));

function jobWith(keepOut: object, space: object = {}) {
  return {
    format: 'kentledge-job/1',
    name: 'Bolted',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2000 }],
    voids: [{ void: 'V1', length: 1100, width: 400, height: 160, ...space, keepOut: [keepOut] }],
  };
}

function told(along: Range, across: Range, up: Range, space: object = {}, more: object = {}): string[] {
  const read = readJobValue(jobWith({ along, across, up, ...more }, space));
  return read.ok ? [] : read.faults.map(({ path }) => path.replace('voids[0].keepOut[0].', ''));
}

describe('something to stay off', () => {
  test('that lies nowhere in its void is a fault, each way', () => {
    expect(told([1500, 1600], [-40, 40], [0, 70])).toEqual(['along']);
    expect(told([1100, 1160], [-40, 40], [0, 70])).toEqual(['along']);
    expect(told([-90, -30], [-40, 40], [0, 70])).toEqual(['along']);
    expect(told([500, 560], [210, 260], [0, 70])).toEqual(['across']);
    expect(told([500, 560], [-300, -200], [0, 70])).toEqual(['across']);
    expect(told([500, 560], [-40, 40], [160, 200])).toEqual(['up']);
    expect(told([1500, 1600], [300, 400], [300, 310])).toEqual(['along', 'across', 'up']);
  });

  test('that lies partly inside it is none, nor what is flush with its bottom and kept reachable', () => {
    expect(told([1000, 1600], [-40, 40], [0, 70])).toEqual([]);
    expect(told([-90, 10], [190, 300], [-20, 10])).toEqual([]);
    expect(told([0, 0], [200, 200], [160, 160], {}, { access: false })).toEqual([]);
    expect(told([500, 560], [-40, 40], [-20, 0])).toEqual([]);
    expect(told([500, 560], [-40, 40], [-20, 0], {}, { access: false })).toEqual(['up']);
  });

  test('in a void with stations is outside where it is past every reading', () => {
    const space = { stations: STATIONS, width: 100 };
    expect(told([500, 560], [-205, -180], [0, 70], space)).toEqual([]);
    expect(told([500, 560], [155, 190], [0, 70], space)).toEqual(['across']);
    expect(told([1200, 1260], [-40, 40], [0, 70], space)).toEqual(['along']);
  });

  test('is told with what to do, on the form beside its field', () => {
    const job = jobWith({ along: [1500, 1600], across: [-40, 40], up: [0, 70] });
    const form = showForm(job);
    const keepOut = form.voids[0]?.rows.find(({ list }) => list === 'keepOut')?.rows[0];
    const along = keepOut?.fields.find(({ path }) => path === 'along');
    expect(along?.faults).toMatchObject([
      {
        code: 'contradiction',
        message:
          'The keep-out lies at 1500 to 1600 mm along, and the void reaches from 0 to 1100 mm: it would be buried.',
        remedy: 'Measure it from the after end of the void (athwartships from its port end), in mm; or take it out.',
      },
    ]);
  });

  test('does not add to a void in metres, and does not keep an older plan from being checked', () => {
    const faults = told([500, 560], [-40, 40], [0, 70], { length: 1.1 });
    expect(faults).toEqual(['voids[0].length']);
    const job = jobWith({ along: [1500, 1600], across: [-40, 40], up: [0, 70] });
    expect([readJobValue(job).ok, readJobValue(job, { toCheck: true }).ok]).toEqual([false, true]);
  });
});
