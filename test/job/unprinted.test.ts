/** Control characters in the words of a job that stand on tags and papers. */
import { expect, test } from 'vitest';
import { readCutList } from '../../src/job/cutlist.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { trialJobInput } from '../plan/trialPlan.ts';

type Words = (text: string) => Record<string, unknown>;

const by = { by: 'floors', carries: 4 };
/** A job that has every field of one line, with `text` behind each of its words. */
const job: Words = (text) => {
  const input = trialJobInput();
  const [first, ...others] = input.voids;
  const bolts = { size: 'M8', grade: 'A4-70', perBar: 2, into: `beams${text}` };
  const holdDown = {
    loads: { along: 1, reason: `in port${text}` },
    bars: [{ count: 1, width: 40, thickness: 10, span: 340, bolts }],
    blocked: { forward: { ...by, by: `floors${text}` } },
  };
  const keepOut = { along: [0, 50], across: [-20, 20], up: [0, 40], what: `bolt${text}` };
  return {
    ...input,
    name: `Trial${text}`,
    pile: input.pile.map((lot) => ({ ...lot, lot: `${lot.lot}${text}`, note: `two\nlines\t${text}` })),
    voids: [
      { ...first, void: `V1${text}`, name: `Fore${text}`, keepOut: [keepOut], holdDown },
      ...others.map((space, i) => ({ ...space, void: `W${i}${text}` })),
    ],
    vessel: { ...input.vessel, openings: [{ name: `hatch${text}`, height: 1, x: 2, y: 0 }] },
  };
};

const faultsOf = (raw: unknown) => {
  const read = readJobValue(raw);
  return read.ok ? [] : read.faults;
};

test('each is refused at its path, with what to do; notes may have several lines', () => {
  expect(faultsOf(job(''))).toEqual([]);
  const stated = trialJobInput();
  const paths = [
    'name',
    ...stated.pile.map((_, i) => `pile[${i}].lot`),
    'voids[0].void',
    'voids[0].name',
    'voids[0].keepOut[0].what',
    'voids[0].holdDown.loads.reason',
    'voids[0].holdDown.bars[0].bolts.into',
    'voids[0].holdDown.blocked.forward.by',
    ...stated.voids.slice(1).map((_, i) => `voids[${i + 1}].void`),
    'vessel.openings[0].name',
  ];
  for (const [text, code] of [
    ['\n', 'U+000A'],
    ['\t', 'U+0009'],
    ['\u0000', 'U+0000'],
    ['\u0007x', 'U+0007'],
    ['\u0085', 'U+0085'],
    ['\ud800', 'U+D800'],
    ['\u202ex', 'U+202E'],
    ['\u2067x', 'U+2067'],
  ] as const) {
    const faults = faultsOf(job(text));
    expect(faults.map(({ path }) => path).sort(), code).toEqual([...paths].sort());
    for (const fault of faults) {
      expect(fault.code).toBe('out-of-range');
      expect(fault.message).toContain(`never printed (${code})`);
      expect(fault.remedy).toBe('Write it anew, in one line and without tabs.');
    }
  }
});

test('they are told with all other faults, and once', () => {
  const faults = faultsOf({ ...job('\t'), name: '\t', bundle: { reach: 5 } });
  expect(faults.filter(({ path }) => path === 'name').map(({ message }) => message)).toEqual([
    '“name” is only spaces.',
  ]);
  expect(faults.some(({ path }) => path.startsWith('bundle'))).toBe(true);
  expect(faults.some(({ path }) => path === 'voids[0].void')).toBe(true);
});

test('letters of any alphabet and pairs of halves are words', () => {
  for (const text of ['木', ' Ωδ', ' שלום', '😀', '\u00a0x', ' é']) expect(faultsOf(job(text)), text).toEqual([]);
});

test('an older plan of such a job is read and checked all the same', () => {
  expect(readJobValue(job('\t'), { toCheck: true }).ok).toBe(true);
});

test('two marks that would be painted alike are one', () => {
  const named = (one: string, other: string) => {
    const { voids, pile, ...rest } = trialJobInput();
    const [lot, space] = [pile[0]!, voids[0]!];
    return faultsOf({
      ...rest,
      pile: [one, other].map((mark) => ({ ...lot, lot: mark })),
      voids: [one, other].map((mark) => ({ ...space, void: mark })),
    }).filter(({ code }) => code === 'not-unique');
  };
  for (const other of ['A\u200b', '\ufeffA', ' A', 'A\u00a0'])
    expect(named('A', other), JSON.stringify(other)).toHaveLength(2);
  expect(named('\u00e9', 'e\u0301')).toHaveLength(2);
  expect(named('A B', 'A  B')).toHaveLength(2);
  expect(named('A', 'a')).toEqual([]);
  expect(named('A1', 'A 1')).toEqual([]);
});

test('a mark of a cut list is refused as those of a job are, with every other fault of the list', () => {
  const list = (mark: string, kerf = 3) =>
    JSON.stringify({
      format: 'kentledge-cutlist/1',
      stock: [{ length: 6000 }],
      pieces: [
        { length: 700, mark: 'P1' },
        { length: 900, mark },
      ],
      saw: { kerf },
    });
  const told = (text: string) => {
    const read = readCutList(text);
    return read.ok ? [] : read.faults.map(({ path, message }) => `${path} ${message}`);
  };
  for (const mark of ['keel bolt', ' שלום', '木', '']) expect(told(list(mark)), mark).toEqual([]);
  for (const [mark, code] of [
    ['a\nb', 'U+000A'],
    ['\u001b[31mred', 'U+001B'],
    ['\u202eP2', 'U+202E'],
  ] as const)
    expect(told(list(mark))).toEqual([expect.stringMatching(`^pieces\\[1\\]\\.mark .*\\(U\\+${code.slice(2)}\\)\\.$`)]);
  expect(
    told(list('a\tb', -1))
      .map((fault) => fault.split(' ')[0])
      .sort(),
  ).toEqual(['pieces[1].mark', 'saw.kerf']);
});
