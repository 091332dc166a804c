import { expect, test } from 'vitest';
import { markHold } from '../../src/hold/fittings.ts';
import { heldVoid } from '../../src/hold/holdDown.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { BAR, type HoldInput, jobWith } from './heldJob.ts';

const BLOCK = { by: 'floor timbers', carries: 30 };
const BLOCKED = { forward: BLOCK, aft: BLOCK, port: BLOCK, starboard: BLOCK };

function voidWith(holdDown: HoldInput) {
  const read = readJobValue(jobWith({ blocked: BLOCKED, ...holdDown }));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.job.voids[0]!;
}

test('marks are letters by row, numbered from the least place, no two alike, beyond Z too', () => {
  const marked = markHold(voidWith({ bars: Array.from({ length: 30 }, () => ({ ...BAR })), straps: [] }).holdDown!);
  const letters = [...marked.bars, ...marked.blocks].map(({ letter }) => letter);
  expect(new Set(letters).size).toBe(34);
  expect(letters.slice(24, 28)).toEqual(['Y', 'Z', 'AA', 'AB']);
  const runs = [
    { run: 1, from: 8, to: 492, mass: 30 },
    { run: 2, from: 500, to: 984, mass: 20 },
  ];
  const placed = heldVoid(voidWith({ bars: [{ ...BAR, at: [742, 250] }] }), {
    mass: 50,
    rolling: false,
    athwartships: false,
    runs,
  });
  expect(placed.covers[0]!.fittings.map(({ mark, at }) => [mark, at])).toEqual([
    ['A1', 250],
    ['A2', 742],
  ]);
});
