import { expect, test } from 'vitest';
import { usableSpans } from '../../src/job/lot.ts';

const SAW = { squaring: 4, kerf: 3 };
const spansOf = (spoiled: { from: number; to: number }[], squaring?: number) =>
  usableSpans({ spoiled, squaring }, 1000, SAW).map(({ from, to }) => [from, to]);

test('a bar is usable from squaring to squaring, the lot’s own before the saw’s', () => {
  expect([spansOf([]), spansOf([], 0), spansOf([], 600)]).toEqual([[[4, 996]], [[0, 1000]], []]);
});

test('what is spoiled parts it, in any order; what touches or overlaps is one', () => {
  const [p, q, r] = [
    { from: 200, to: 250 },
    { from: 250, to: 300 },
    { from: 240, to: 260 },
  ];
  for (const spoiled of [
    [p, q],
    [q, p],
    [p, q, r],
  ])
    expect(spansOf(spoiled)).toEqual([
      [4, 200],
      [300, 996],
    ]);
});

test('what is narrower than the kerf takes one kerf, because the saw runs in it', () => {
  expect(spansOf([{ from: 500, to: 501 }])).toEqual([
    [4, 500],
    [503, 996],
  ]);
  expect(spansOf([{ from: 995, to: 995.5 }])).toEqual([[4, 995]]);
});

test('what is spoiled at an end, or within what squaring takes, begins or ends it', () => {
  expect(spansOf([{ from: 0, to: 2 }])).toEqual([[4, 996]]);
  expect(
    spansOf([
      { from: 0, to: 50 },
      { from: 900, to: 1000 },
    ]),
  ).toEqual([[50, 900]]);
});
