import { describe, expect, test } from 'vitest';
import { readJobValue } from '../../src/job/readJob.ts';

function faultsAt(origin: { x: number; y: number; z: number }, axis: 'fore-and-aft' | 'athwartships' = 'fore-and-aft') {
  const read = readJobValue({
    format: 'kentledge-job/1',
    name: 'Placed',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2000 }],
    voids: [{ void: 'V1', length: 800, width: 300, height: 150, origin, axis }],
    vessel: { displacement: 4900, waterlineLength: 8.2, beam: 2.6 },
  });
  return read.ok ? [] : read.faults;
}

describe('where a void lies in the vessel', () => {
  test.each([
    [{ x: 0, y: 0, z: 0.3 }],
    [{ x: 7.4, y: 0, z: 0.3 }],
    [{ x: 8.9, y: 0, z: 0.3 }],
    [{ x: -1.2, y: 0, z: 0.3 }],
    [{ x: 4, y: -1.25, z: 0.3 }],
  ])('inside, or under an overhang: %o', (origin) => {
    expect(faultsAt(origin)).toEqual([]);
  });

  test.each([
    [{ x: 4200, y: 0, z: 0.3 }, 'wrong-unit', /Did you mean 4\.2\?/],
    [{ x: 420, y: 0, z: 0.3 }, 'wrong-unit', /Did you mean 4\.2\?/],
    [{ x: 12, y: 0, z: 0.3 }, 'contradiction', /after end of the waterline/],
    [{ x: -3, y: 0, z: 0.3 }, 'contradiction', /after end of the waterline/],
  ])('outside her length: %o', (origin, code, words) => {
    const fault = faultsAt(origin).find((one) => one.path === 'voids[0].origin.x')!;
    expect(fault.code).toBe(code);
    expect(`${fault.message} ${fault.remedy}`).toMatch(words);
  });

  test('that begins inside and ends outside is told with both its ends', () => {
    const [fault] = faultsAt({ x: 9.3, y: 0, z: 0.3 });
    expect(fault!.message).toBe('“V1” reaches from x = 9.3 to 10.1 m, and her waterline is 8.2 m long.');
  });

  test('outside her beam, in centimetres; athwartships from its port end', () => {
    expect(faultsAt({ x: 4, y: 60, z: 0.3 })).toMatchObject([{ path: 'voids[0].origin.y', code: 'wrong-unit' }]);
    const [fault] = faultsAt({ x: 4, y: 0.9, z: 0.3 }, 'athwartships');
    expect(fault).toMatchObject({ path: 'voids[0].origin.y', code: 'contradiction' });
    // Its port end lies inside her: what is outside is told.
    expect(fault!.message).toBe('“V1” reaches from y = 0.9 to 1.7 m, outside a beam of 2.6 m.');
    expect(faultsAt({ x: 4, y: -0.4, z: 0.3 }, 'athwartships')).toEqual([]);
  });
});
