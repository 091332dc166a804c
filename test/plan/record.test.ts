/** The record of what is stowed: the present state follows from its entries alone, and its history is short. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { historyOf } from '../../src/plan/history.ts';
import {
  bundlesIn,
  type Entry,
  hangingOf,
  leftAshore,
  recordIn,
  recordOf,
  restsOn,
  type What,
} from '../../src/plan/record.ts';
import { trialPair } from './trialPlan.ts';

const entry = (bundle: string, what: What, at = '2026-05-04T10:00:00Z', note = ''): Entry => ({
  bundle,
  what,
  note,
  at,
});
const stateOf = (...whats: What[]) => recordIn(recordOf(whats.map((what) => entry('V1-01', what))), 'V1-01').state;

describe('the state of a bundle', () => {
  test('is what was done last, without what was a mistake', () => {
    expect(stateOf()).toBe('not in');
    expect(stateOf('in')).toBe('in');
    expect(stateOf('in', 'out')).toBe('out');
    expect(stateOf('in', 'out', 'in')).toBe('in');
    expect(stateOf('in', 'undone')).toBe('not in');
    expect(stateOf('in', 'out', 'undone')).toBe('in');
    expect(stateOf('in', 'out', 'in', 'undone')).toBe('out');
    expect(stateOf('undone', 'in')).toBe('in');
  });

  test('left ashore is neither in nor out until it goes in, and can be taken back', () => {
    const told = (...whats: What[]) => {
      const { state, ashore } = recordIn(recordOf(whats.map((what) => entry('V1-01', what))), 'V1-01');
      return ashore ? `${state}, ashore` : state;
    };
    expect(told('ashore')).toBe('not in, ashore');
    expect(told('in', 'out', 'ashore')).toBe('not in, ashore');
    expect(told('in', 'out', 'ashore', 'undone')).toBe('out');
    expect(told('ashore', 'in')).toBe('in');
    expect(told('ashore', 'in', 'undone')).toBe('not in, ashore');
    expect(told('ashore', 'undone')).toBe('not in');
  });

  test('what is written after a trial leaves these ashore and no others, whatever was written before', () => {
    const { plan } = trialPair();
    const marks = plan.bundles.map(({ bundle }) => bundle);
    const before = fc.array(
      fc.tuple(fc.constantFrom(...marks), fc.constantFrom<What>('in', 'out', 'undone', 'ashore', 'seen')),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(before, fc.subarray(marks), (acts, some) => {
        const entries = acts.map(([bundle, what]) => entry(bundle, what));
        const record = recordOf(entries);
        const more = leftAshore(plan, record, new Set(some), '2026-05-05');
        const after = recordOf([...entries, ...more]);
        expect(marks.filter((mark) => recordIn(after, mark).ashore)).toEqual(
          marks.filter((mark) => some.includes(mark)),
        );
        for (const mark of marks.filter((own) => !some.includes(own) && !recordIn(record, own).ashore))
          expect(recordIn(after, mark).state).toBe(recordIn(record, mark).state);
        expect(leftAshore(plan, after, new Set(some), '2026-05-06')).toEqual([]);
      }),
      { seed: 1, numRuns: 200 },
    );
  });

  test('is not changed by what was seen and how it lies', () => {
    const whats = fc.array(fc.constantFrom<What>('in', 'out', 'undone', 'lies', 'seen'), { maxLength: 12 });
    fc.assert(
      fc.property(whats, (all) => {
        expect(stateOf(...all)).toBe(stateOf(...all.filter((what) => what !== 'lies' && what !== 'seen')));
      }),
    );
  });

  test('has its days, its note and its moves', () => {
    const entries = [
      entry('V1-01', 'in', '2026-05-04T10:00:00Z'),
      entry('V1-01', 'lies', '2026-05-04T10:01:00Z', '20 mm to port'),
      entry('V1-02', 'in'),
      entry('V1-01', 'out', '2029-04-02', 'wet under it'),
      entry('V1-01', 'in', '2029-04-09'),
    ];
    const record = recordIn(recordOf(entries), 'V1-01');
    expect(record).toMatchObject({
      state: 'in',
      stowed: '2026-05-04T10:00:00Z',
      since: '2029-04-09',
      lies: '20 mm to port',
    });
    expect(record.moves.map(({ did }) => did)).toEqual(['stowed', 'lies', 'lifted out', 'put back']);
    const cleared = recordOf([...entries, entry('V1-01', 'lies', '2029-04-09', '')]);
    expect(recordIn(cleared, 'V1-01').lies).toBe('');
  });
});

test('the history of a void is a line for what was done alike on one day, by ranges', () => {
  const marks = ['V1-01', 'V1-02', 'V1-03'];
  const record = recordOf([
    ...marks.slice(0, 2).map((mark) => entry(mark, 'in', '2026-05-04T10:00:00Z')),
    entry('V1-03', 'in', '2026-05-04T11:30:00Z'),
    entry('V1-03', 'out', '2029-04-02', 'bands gone'),
    entry('V1-02', 'out', '2029-04-02', 'bands gone'),
    entry('V1-02', 'in', '2029-04-09'),
  ]);
  const told = historyOf(marks.map((mark) => recordIn(record, mark)));
  expect(told.map(({ day, bundles, did, note }) => `${day} ${bundles} ${did} ${note}`.trim())).toEqual([
    '2026-05-04 all 3 bundles stowed',
    '2029-04-02 V1-02, V1-03 lifted out bands gone',
    '2029-04-09 V1-02 put back',
  ]);
});

test('what is said of a bundle that went in does not part those that went in before it from those after', () => {
  const record = recordOf([
    entry('V1-01', 'in'),
    entry('V1-01', 'lies', undefined, '20 mm to port'),
    entry('V1-02', 'in'),
    entry('V1-03', 'in'),
  ]);
  const told = historyOf(['V1-01', 'V1-02', 'V1-03'].map((mark) => recordIn(record, mark)));
  expect(told.map(({ bundles, did }) => `${bundles} ${did}`)).toEqual(['all 3 bundles stowed', 'V1-01 lies']);
});

test('the history of a day has what was done in the order in which it was done', () => {
  const marks = ['V2-01', 'V2-02', 'V2-03'];
  const all = (what: What, note = '') => marks.map((mark) => entry(mark, what, '2029-04-02', note));
  const record = recordOf([
    ...marks.map((mark) => entry(mark, 'in')),
    entry('V2-01', 'out', '2029-04-02'),
    entry('V2-01', 'in', '2029-04-02'),
    ...all('out', 'bolt seen'),
    ...all('in'),
  ]);
  const told = historyOf(marks.map((mark) => recordIn(record, mark)));
  expect(told.map(({ bundles, did, note }) => `${bundles} ${did} ${note}`.trim())).toEqual([
    'all 3 bundles stowed',
    'V2-01 lifted out',
    'V2-01 put back',
    'all 3 bundles lifted out bolt seen',
    'all 3 bundles put back',
  ]);
});

describe('the history of any record', () => {
  // Marks without numbers are told one by one.
  const marks = ['A', 'B', 'C', 'D'];
  const days = ['2029-04-02', '2029-04-03', '2029-04-05T09:30:00Z'];
  const written = fc
    .array(
      fc.record({
        some: fc.subarray(marks, { minLength: 1 }),
        what: fc.constantFrom<What>('in', 'out', 'undone', 'lies', 'seen', 'ashore', 'moved'),
        note: fc.constantFrom('', 'wet'),
        day: fc.constantFrom(...days),
      }),
      { maxLength: 12 },
    )
    .map((acts) => acts.flatMap(({ some, what, note, day }) => some.map((mark) => entry(mark, what, day, note))));
  const told = (entries: readonly Entry[]) => {
    const record = recordOf(entries);
    const acts = historyOf(marks.map((mark) => recordIn(record, mark)));
    return acts.map((act) => ({ ...act, marks: act.bundles.startsWith('all ') ? marks : act.bundles.split(', ') }));
  };

  test('done again as it is told, leaves in her what is in her now', () => {
    fc.assert(
      fc.property(written, (entries) => {
        const present = new Set<string>();
        for (const { did, marks: own } of told(entries))
          for (const mark of own) {
            if (did === 'stowed' || did === 'put back') present.add(mark);
            if (did === 'lifted out' || did === 'left ashore') present.delete(mark);
          }
        expect([...present].sort()).toEqual([...bundlesIn(recordOf(entries))].sort());
      }),
      { seed: 1, numRuns: 500 },
    );
  });

  test('tells of each bundle what was done with it, in that order, nothing more and nothing less', () => {
    // Done twice running it may be told once.
    const wordsOf = (all: readonly { did: string; note: string }[]) =>
      all.map(({ did, note }) => `${did} ${note}`).filter((words, n, others) => words !== others[n - 1]);
    const inOneDay = written.map((entries) => entries.map((one) => ({ ...one, at: days[0]! })));
    fc.assert(
      fc.property(inOneDay, (entries) => {
        const acts = told(entries);
        for (const mark of marks) {
          const own = acts.filter((act) => act.marks.includes(mark));
          expect(wordsOf(own)).toEqual(wordsOf(recordIn(recordOf(entries), mark).moves));
        }
      }),
      { seed: 1, numRuns: 500 },
    );
  });
});

test('a bundle that is in over one that is not is told with which; in the order of the plan there is none', () => {
  const { plan } = trialPair();
  const upper = plan.bundles.find((bundle) => plan.bundles.some((low) => restsOn(bundle, low)))!;
  const under = plan.bundles.filter((low) => restsOn(upper, low));
  expect(under.every((low) => low.order < upper.order && low.void === upper.void)).toBe(true);
  expect(hangingOf(plan, new Set([upper.bundle]))).toEqual([{ bundle: upper, on: under }]);
  for (const space of new Set(plan.bundles.map((bundle) => bundle.void))) {
    const own = plan.bundles.filter((bundle) => bundle.void === space).sort((p, q) => p.order - q.order);
    for (let n = 0; n <= own.length; n++) {
      const entries = own.slice(0, n).map(({ bundle }) => entry(bundle, 'in'));
      expect(hangingOf(plan, bundlesIn(recordOf(entries)))).toEqual([]);
    }
  }
});
