import { describe, expect, test } from 'vitest';
import { MAKING_WORDS } from '../../server/paper/makingWords.ts';
import { type Job, jobSchema } from '../../src/job/job.ts';
import { chockMade } from '../../src/plan/chockMade.ts';
import type { Chock } from '../../src/plan/chocks.ts';
import { type LaidVoid, layVoid } from '../../src/stow/laid.ts';

function laidWith(opening?: Partial<NonNullable<Job['voids'][number]['opening']>>): LaidVoid {
  const job = jobSchema.parse({
    format: 'kentledge-job/1',
    name: 'Chocked',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2000 }],
    voids: [{ void: 'V1', length: 1000, width: 500, height: 280, opening }],
  });
  return layVoid(job.voids[0]!)[0]!;
}

const chock = (more: Partial<Chock>): Chock => ({
  mark: 'V1/1/1a',
  void: 'V1',
  run: 1,
  tier: 1,
  side: 'first end',
  after: 1,
  size: 40,
  sizeAtHead: 40,
  height: 60,
  length: 478,
  from: 4,
  to: 44,
  across: -239,
  up: 12,
  ...more,
});
const atSide = (more: Partial<Chock>) => chock({ side: 'most', size: 60, sizeAtHead: 60, length: 700, ...more });

describe('what a chock is made of', () => {
  test('is one block where the void has no opening, or it passes that flat or tilted', () => {
    const whole = { pieces: 1, struts: null };
    expect(chockMade(laidWith(), chock({}))).toEqual(whole);
    expect(chockMade(laidWith({ along: 500, across: 500 }), chock({}))).toEqual(whole);
    // On its way down across it leans 268 in 478: 60 · 478 / 268 = 107 mm of breadth, whatever is said of bundles.
    expect(chockMade(laidWith({ along: 40, across: 108 }), chock({}))).toEqual(whole);
    expect(chockMade(laidWith({ along: 40, across: 106 }), chock({})).pieces).toBe(2);
    // Along: 60 · 700 / 268 = 157.
    expect(chockMade(laidWith({ along: 158, across: 60 }), atSide({}))).toEqual(whole);
    expect(chockMade(laidWith({ along: 150, across: 60 }), atSide({})).pieces).toBe(2);
  });

  test('is of as few pieces as pass, and of none that is known where nothing so made does', () => {
    expect(chockMade(laidWith({ along: 100, across: 60 }), atSide({})).pieces).toBe(2);
    expect(chockMade(laidWith({ along: 61, across: 60 }), atSide({})).pieces).toBe(3);
    expect(chockMade(laidWith({ along: 100, across: 50 }), atSide({})).pieces).toBeNull();
    const wedge = { sizeAtHead: 61, height: 61 };
    expect(chockMade(laidWith({ along: 100, across: 60 }), atSide(wedge)).pieces).toBeNull();
  });

  test('needs room under the deck beside an opening that is placed', () => {
    const placed = (across: number) => laidWith({ along: 40, across: 120, at: { along: 20, across } });
    // It reaches √(478² − 268²) = 395 under the deck; from over the middle there are 310.
    expect(chockMade(placed(0), chock({})).pieces).toBe(2);
    expect(chockMade(placed(-160), chock({})).pieces).toBe(1);
  });

  test('is a frame at an end where it is long along, unless it is as narrow as a strut; never at a side', () => {
    const open = laidWith();
    expect(chockMade(open, chock({ size: 150 })).struts).toBeNull();
    expect(chockMade(open, chock({ size: 664 })).struts).toEqual({ count: 3, length: 604 });
    expect(chockMade(open, chock({ size: 664, length: 132 })).struts).toEqual({ count: 2, length: 604 });
    expect(chockMade(open, chock({ size: 664, length: 100 })).struts).toBeNull();
    expect(chockMade(open, atSide({ size: 180 })).struts).toBeNull();
  });

  test('a frame goes in board by board and strut by strut', () => {
    const opening = laidWith({ along: 350, across: 300 });
    expect(chockMade(opening, chock({ size: 664 }))).toEqual({ pieces: 1, struts: { count: 3, length: 604 } });
    // Struts 604 long lean too far for 130 mm: 60 · 604 / 268 = 136.
    expect(chockMade(laidWith({ along: 130, across: 300 }), chock({ size: 664 })).pieces).toBeNull();
  });
});

test('what is made so is told in words', () => {
  const told = (pieces: number | null, struts: { count: number; length: number } | null, atEnd = true) =>
    MAKING_WORDS.made({ pieces, struts }, atEnd, String);
  expect(told(1, null)).toBe('');
  expect([told(2, null), told(2, null, false), told(null, null)]).toEqual([
    '2 side by side',
    'in 2 lengths',
    'of pieces that pass',
  ]);
  expect([told(1, { count: 3, length: 604 }), told(2, { count: 2, length: 604 })]).toEqual([
    '3 struts of 604',
    '2 side by side, each 2 struts of 604',
  ]);
  expect(MAKING_WORDS.madeNotes([{ pieces: 1, struts: null }])).toBe('');
  expect(MAKING_WORDS.madeNotes([{ pieces: 2, struts: null }])).toContain('would not pass the opening whole');
  expect(MAKING_WORDS.madeNotes([{ pieces: 1, struts: { count: 2, length: 9 } }])).toContain('two boards 30 mm thick');
});
