import { describe, expect, it } from 'vitest';
import { finenessOf, readCutList } from '../../src/job/cutlist.ts';

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
    expect(faultsOf({ ...list, stock, saw: { kerf: 2.551 } })).toEqual([
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
    expect(
      faultsOf({ ...list, stock, saw: { kerf: 2.551 }, pieces: [{ length: '470' }, { length: 0.251 }, 5] }),
    ).toEqual([
      'pieces[0].length wrong-type',
      'pieces[2] wrong-type',
      'stock[0].length wrong-unit',
      'stock[1].spoiled[0].to contradiction',
      'stock[1].spoiled[1].to contradiction',
      'pieces[1].length out-of-range',
      'saw.kerf out-of-range',
    ]);
    expect(faultsOf({ pieces: [{ length: 0.251 }], stock: 5, saw: [] })).toEqual([
      'format missing-field',
      'stock wrong-type',
      'saw wrong-type',
      'pieces[0].length out-of-range',
    ]);
  });

  it('tells of a bar, a piece and the saw what is wrong beside a field that nobody knows', () => {
    const stock = [{ length: 6, colour: 'red' }];
    const pieces = [{ length: 470.123, note: '' }];
    expect(faultsOf({ ...list, stock, pieces, saw: { kerf: 2.551, blade: 3 } })).toEqual([
      'stock[0].colour unknown-field',
      'pieces[0].note unknown-field',
      'saw.blade unknown-field',
      'stock[0].length wrong-unit',
      'pieces[0].length out-of-range',
      'saw.kerf out-of-range',
    ]);
  });

  it('may be measured to hundredths of a millimetre and to 64ths of an inch, and no finer', () => {
    const inch = (whole: number, sixtyFourths: number) => (whole + sixtyFourths / 64) * 25.4;
    const measured = {
      ...list,
      stock: [{ length: inch(240, 0), spoiled: [{ from: inch(7, 1), to: inch(8, 63) }] }],
      pieces: [{ length: 470.01 }, { length: inch(18, 33) }],
    };
    for (const kerf of [2.38, 2.38125, 3.175, 1.190625])
      expect(faultsOf({ ...measured, saw: { kerf, squaring: inch(0, 5) } })).toEqual([]);
    expect(faultsOf({ ...measured, saw: { kerf: 2.3812 } })).toEqual(['saw.kerf out-of-range']);
  });

  it('is divided as finely as its figures ask', () => {
    const fineness = (kerf: number) => {
      const read = readCutList(JSON.stringify({ ...list, saw: { kerf } }));
      return read.ok ? finenessOf(read.value) : null;
    };
    expect([3, 2.4].map(fineness)).toEqual([10, 10]);
    expect([2.38, 2.38125].map(fineness)).toEqual([1600, 1600]);
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
