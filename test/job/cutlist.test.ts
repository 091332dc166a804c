import { describe, expect, it } from 'vitest';
import { readCutList } from '../../src/job/cutlist.ts';

const list = { format: 'kentledge-cutlist/1', stock: [{ length: 6000 }], pieces: [{ length: 470, count: 34 }] };

function faultsOf(value: unknown): string[] {
  const read = readCutList(JSON.stringify(value));
  return read.ok ? [] : read.faults.map(({ path, code }) => `${path} ${code}`);
}

describe('a cut list', () => {
  it('is read with its defaults', () => {
    const read = readCutList(JSON.stringify(list));
    expect(read.ok && read.value).toEqual({
      ...list,
      stock: [{ length: 6000, count: null, spoiled: [] }],
      saw: { kerf: 3, squaring: 0 },
    });
  });

  it('tells every fault at once, with its path', () => {
    const stock = [
      { length: 6, spoiled: [] },
      {
        length: 6000,
        spoiled: [
          { from: 90, to: 80 },
          { from: 5990, to: 6100 },
        ],
      },
    ];
    expect(faultsOf({ ...list, stock, saw: { kerf: 2.55 } })).toEqual([
      'stock[0].length wrong-unit',
      'stock[1].spoiled[0].to contradiction',
      'stock[1].spoiled[1].to contradiction',
      'saw.kerf out-of-range',
    ]);
    expect(faultsOf({ ...list, pieces: [{ length: '470', cuont: 3 }], stock: [{ length: -1 }] })).toEqual([
      'stock[0].length out-of-range',
      'pieces[0].length wrong-type',
      'pieces[0].cuont unknown-field',
    ]);
    expect(faultsOf({ ...list, stock, saw: { kerf: 2.55 }, pieces: [{ length: '470' }, { length: 0.25 }, 5] })).toEqual(
      [
        'pieces[0].length wrong-type',
        'pieces[2] wrong-type',
        'stock[0].length wrong-unit',
        'stock[1].spoiled[0].to contradiction',
        'stock[1].spoiled[1].to contradiction',
        'pieces[1].length out-of-range',
        'saw.kerf out-of-range',
      ],
    );
    expect(faultsOf({ pieces: [{ length: 0.25 }], stock: 5, saw: [] })).toEqual([
      'format missing-field',
      'stock wrong-type',
      'saw wrong-type',
      'pieces[0].length out-of-range',
    ]);
  });

  it('is refused when squaring leaves nothing of a bar', () => {
    expect(faultsOf({ ...list, saw: { squaring: 3000 } })).toEqual(['saw.squaring contradiction']);
  });

  it('is refused when it is something else, or newer', () => {
    expect(faultsOf({ ...list, format: 'kentledge-job/1' })).toEqual(['format wrong-type']);
    expect(faultsOf({ ...list, format: 'kentledge-cutlist/2' })).toEqual(['format newer-file']);
    expect(faultsOf([])).toEqual([' wrong-type']);
    expect(readCutList('{').ok).toBe(false);
  });
});
