/** What the first cuts measured tell beside the corrections, against the bars and bundles of the trial plan. */
import { expect, test } from 'vitest';
import type { Job, Lot } from '../../src/job/job.ts';
import { correctFromCuts, type FirstCuts } from '../../src/plan/firstCuts.ts';
import { noCutsAt } from './noCuts.ts';
import { trialPair } from './trialPlan.ts';

const NOTHING = noCutsAt(500);
/** are 3000 mm, 5 mm squared off, the last pieces of 500 mm ending at 2956 and 2811; kerf 3 mm, tolerance 2 mm. */
const { job, plan } = trialPair();
const remarks = (cuts: Partial<FirstCuts>, of: Job = job) => correctFromCuts(of, plan, { ...NOTHING, ...cuts }).remarks;
const pileWith = (change: (lot: Lot) => Lot | Lot[]): Job => ({ ...job, pile: job.pile.flatMap(change) });

test('a bar as long as stated is not remarked, nor one shorter by what tolerance and squaring explain, nor a longer one', () => {
  for (const bar of [2995, 2995 - 5 - 2, 3040]) expect(remarks({ bar }), `${bar}`).toEqual([]);
});

test('a bar shorter than the lot states is told by how much, with what becomes of its pieces', () => {
  const [remark, ...more] = remarks({ bar: 2900, measured: [500, 500], remained: 2900 - 2 * 503 });
  expect(more).toEqual([]);
  expect(remark).toContain('2900 mm, and by the job it should have 2995 mm (lot A): it is 95 mm shorter.');
  expect(remark).toContain('Measure the other bars of lot A before you cut them.');
  // Its pieces end at 2956 mm of the whole bar; 5 mm and two pieces are off it.
  expect(remark).toContain(`still needs ${2956 - 5 - 2 * 503} mm of it, which has 1894 mm left: 51 mm too little.`);
});

test('more pieces than the plan has of a bar leave too little for its others', () => {
  // The plan has one piece of 400 mm, of A-03, whose last piece ends at 2811 mm of the whole bar.
  const cuts = { ordered: 400, bar: 2995, measured: [400, 400, 400, 400], remained: 2995 - 4 * 403 };
  expect(remarks(cuts)[0]).toContain(`${2806 - 403 - (2995 - 4 * 403)} mm too little. Plan what is left.`);
});

test('a kerf wider than planned names the bars that would not give their last piece, and no other', () => {
  const cut = (kerf: number) => ({ bar: 2995, measured: [500, 500], remained: 2995 - 2 * (500 + kerf) });
  expect(remarks(cut(3))).toEqual([]);
  expect(remarks(cut(2.5))).toEqual([]);
  expect(remarks(cut(4))).toEqual([expect.stringContaining('all bars of the plan still give their pieces')]);
  // Of the six pieces of C-01 the last ends 5 mm before a bar of 1940 mm; five kerfs lie before it, and 2 mm may be missing.
  const bars = plan.bars.map((bar) => (bar.bar === 'C-01' ? { ...bar, length: 1940 } : bar));
  const short = pileWith((lot) => (lot.lot === 'C' ? { ...lot, length: 1940 } : lot));
  const told = (kerf: number) => correctFromCuts(short, { ...plan, bars }, { ...NOTHING, ...cut(kerf) }).remarks;
  expect(told(4.4)).toEqual([expect.stringContaining('all bars')]);
  expect(told(4.5)).toEqual([expect.stringMatching(/^With 4.5 mm a cut .* 3 mm C-01 would not give its last piece/)]);
});

test('of a short bar whose pieces are all cut the plan needs nothing more', () => {
  const measured = [320, 320, 320, 320, 320, 320];
  expect(remarks({ ordered: 320, bar: 1960, measured, remained: 22 })[0]).toMatch(
    /The plan needs nothing more of it\.$/,
  );
});

test('a short bar that still gives all its pieces is told as one that does', () => {
  const [remark] = remarks({ ordered: 499, bar: 2450, measured: [499, 499], fromBar: 2 });
  expect(remark).toContain('(lot B): it is 50 mm shorter.');
  // 2005 mm are needed of B-01, two pieces of 499 mm and their kerfs are off.
  expect(remark).toContain('needs of it, 1001 mm, comes out of the 1446 mm that are left');
});

test('where bars of the plan want different lengths of a short bar, those that come out of it are named', () => {
  expect(remarks({ bar: 2900 })[0]).toContain('enough for A-03, too little for others');
  // A-03 gives one piece of this stop alone, and shorter ones behind it.
  const [remark] = remarks({ bar: 2900, measured: [500], remained: 2397 });
  expect(remark).toContain('needs up to 2448 mm of it, which has 2397 mm left: enough for A-03, too little');
});

test('a bar measured when longer pieces were off it is held against what the job has then', () => {
  // Of B-01 as of a lot with a longer piece before: A-03 gives 400 mm behind 678 mm and a hole, from 1450 mm on.
  expect(remarks({ ordered: 400, bar: 1550 })).toEqual([]);
  expect(remarks({ ordered: 400, bar: 1500 })[0]).toContain('should have 1550 mm');
});

test('of bars of several lengths the nearest counts, whichever is longer', () => {
  const mixed = { ...plan, bars: plan.bars.map((own) => (own.bar === 'A-02' ? { ...own, length: 2960 } : own)) };
  expect(correctFromCuts(job, mixed, { ...NOTHING, bar: 2956 }).remarks).toEqual([]);
  expect(correctFromCuts(job, mixed, { ...NOTHING, bar: 2800 }).remarks[0]).toContain('should have 2955 mm');
});

test('a bar is not taken for a longer one because that alone gives as many pieces', () => {
  const longer = { ...plan, bars: plan.bars.map((own) => (own.bar === 'A-01' ? { ...own, length: 3900 } : own)) };
  const of = { ...longer, bars: longer.bars.filter(({ bar }) => bar !== 'A-02') };
  // A-03 gives one piece of 500 mm, and room for a second.
  const cuts = { ...NOTHING, bar: 2995, measured: [500, 500], remained: 1989 };
  expect(correctFromCuts(job, of, cuts).remarks.join()).not.toContain('shorter');
});

test('a bar that is not shorter but has too little left is remarked as that', () => {
  // Two pieces 19 mm too long and a kerf of 8 mm.
  const remained = 2995 - 2 * (519 + 8);
  const ofBar = (left: number) =>
    remarks({ bar: 2995, measured: [519, 519], remained: left }).filter((told) => !told.startsWith('With '));
  expect(ofBar(remained)).toEqual([
    'The plan still needs 1945 mm of the bar measured, which has 1941 mm left: 4 mm too little. Plan what is left.',
  ]);
  expect(ofBar(remained + 4)).toEqual([]);
});

test('of a bar from which no kerf follows nothing but that is said: it is to be measured once more', () => {
  const { notes, remarks: said } = correctFromCuts(job, plan, {
    ...NOTHING,
    measured: [500],
    bar: 2900,
    remained: 2300,
  });
  expect([notes.length, said]).toEqual([1, []]);
});

test('pieces that nobody says are of the bar, or that can not be, tell nothing of what is left of it', () => {
  const measured = new Array<number>(10).fill(500);
  expect(remarks({ bar: 2995, measured: measured.slice(5) })).toEqual([]);
  expect(remarks({ bar: 2995, measured, fromBar: 10 })).toEqual([]);
});

test('a bundle within its limit is not remarked, one over it is, with the others by the same mass per metre', () => {
  expect(remarks({ bundle: 'V1-03', weighed: 12 })).toEqual([]);
  expect(remarks({ bundle: 'V1-03', weighed: 12.4 })).toEqual([
    'V1-03 weighs 12.4 kg: 0.4 kg over the lift limit of void V1, 12 kg. Lift it by two, or make it lighter. By the same mass per metre no other bundle of round 24 is over its limit.',
  ]);
  // Three bars of 678 mm of V2, limit 9 kg, weigh over 9 kg from 4.4 kg/m on; five of 500 mm, limit 12 kg, from 4.78 kg/m on.
  const [over] = remarks({ bundle: 'V1-01', weighed: 0.05 + 3 * 4.5 });
  expect(over).toContain('1.55 kg over the lift limit of void V1');
  expect(over).toContain('2 more bundles of square 20 are likely over the limit too, 0 of 2 rows at 500 mm');
  const [more] = remarks({ bundle: 'V1-01', weighed: 0.05 + 3 * 4.9 });
  expect(more).toContain('3 more bundles of square 20 are likely over the limit too, 1 of 2 rows at 500 mm');
});

test('lots of the same section that a weighing leaves as they were are named with why', () => {
  const as = { bundle: 'V1-01', weighed: 9.8 };
  const planned = 'reckoned with 3.14 kg/m';
  expect(remarks(as)).toEqual([
    `Of the same section stay as stated: lot D (none of it in the bundle weighed, ${planned}). Weigh theirs as well.`,
  ]);
  const stated = pileWith((lot) => (lot.lot === 'D' ? { ...lot, massPerMetre: 3.3 } : lot));
  expect(remarks(as, stated)[0]).toContain('lot D (its own mass per metre is stated, 3.3 kg/m)');
  const coated = pileWith((lot) =>
    lot.lot === 'D'
      ? [
          { ...lot, coating: 'zinc' },
          { ...lot, lot: 'E' },
        ]
      : lot,
  );
  expect(remarks(as, coated)[0]).toContain(`lot D (zinc coated, ${planned}); E (none of it`);
});

test('no lot is named that is of another section, of the steel weighed, or that is reckoned with the same mass already', () => {
  expect(remarks({ bundle: 'V1-03', weighed: 9 })).toEqual([]);
  const rest = pileWith((lot) => (lot.lot === 'D' ? { ...lot, lot: 'A cut' } : lot));
  expect(remarks({ bundle: 'V1-01', weighed: 9.8 }, rest)).toEqual([]);
  const value = correctFromCuts(job, plan, { ...NOTHING, bundle: 'V1-01', weighed: 9.8 }).massPerMetre[0]!.value;
  const same = pileWith((lot) => (lot.lot === 'D' ? { ...lot, massPerMetre: value } : lot));
  expect(remarks({ bundle: 'V1-01', weighed: 9.8 }, same)).toEqual([]);
});
