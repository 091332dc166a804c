import { expect, test } from 'vitest';
import { groupCautions } from '../../../server/show/cautions.ts';
import { CAUTIONS } from '../../../src/plan/cautionList.ts';

test('every caution is told, under one moment of the work', () => {
  const all = Object.keys(CAUTIONS).map((code) => ({ code, about: 'the whole plan', text: `text of ${code}` }));
  const told = groupCautions(all).flatMap(({ lines }) => lines.map(({ text }) => text));
  expect([...told].sort()).toEqual(all.map(({ text }) => text).sort());
});

test('a field is called as the page calls it, and in the plan file by its path', () => {
  const text = 'It takes nothing: it is worth less. Lower aims.kgPerHour, lessen clear.ends, or look into plan.json.';
  const [group] = groupCautions([{ code: 'void-short', about: 'V3', text }]);
  const told = text.replace('aims.kgPerHour', '“An hour is worth”').replace('clear.ends', '“Clear at the ends”');
  expect(group?.lines[0]?.text).toBe(told);
});

test('what is said of several lots in the same words is said once', () => {
  const [group] = groupCautions([
    { code: 'lead-paint', about: 'pile lot A', text: 'Treat it as lead.' },
    { code: 'lead-paint', about: 'pile lot C', text: 'Treat it as lead.' },
    { code: 'lead-paint', about: 'every piece', text: 'Another thing.' },
  ]);
  expect(group?.lines).toEqual([
    { about: 'pile lots A, C', text: 'Treat it as lead.' },
    { about: 'every piece', text: 'Another thing.' },
  ]);
});

test('whole bars too heavy for one person are one line where they are many, with the heaviest', () => {
  const heavy = (lot: string, mass: string) =>
    ({
      code: 'heavy-bar',
      about: `pile lot ${lot}`,
      text: `A whole bar weighs up to ${mass} kg; one person lifts 20 kg.`,
    }) as const;
  const three = [heavy('A', '21.0'), heavy('B', '9.9'), heavy('C', '35.9')];
  expect(groupCautions(three)[0]?.lines).toHaveLength(3);
  expect(groupCautions([...three, heavy('D', '28.3')])[0]?.lines).toEqual([
    { about: 'pile lots A, B, C, D', text: 'A whole bar weighs up to 35.9 kg; one person lifts 20 kg.' },
  ]);
});

test('marks that hold spaces stay whole', () => {
  const about = (mark: string) =>
    ({ code: 'doubtful-reading', about: `void ${mark}`, text: 'Measure again.' }) as const;
  const [group] = groupCautions([about('Bow A'), about('Bow B'), about('V3')]);
  expect(group?.lines[0]?.about).toBe('voids Bow A, Bow B, V3');
});

test('a caution of another version is not lost', () => {
  const [group] = groupCautions([{ code: 'of-tomorrow', about: 'V1', text: 'Mind it.' } as never]);
  expect(group?.lines).toEqual([{ about: 'V1', text: 'Mind it.' }]);
});

test('many voids are told by their ranges, and of a long text the first sentences before the rest', () => {
  const voids = Array.from({ length: 60 }, (_, n) => `V${n + 1}`);
  const text = `No hold-down is worked out for ${voids.join(', ')}. ${voids.map((mark) => `In ${mark} the bars are not counted.`).join(' ')}`;
  const [group] = groupCautions(voids.map((mark) => ({ code: 'not-secured', about: `void ${mark}`, text })));
  const [line] = group!.lines;
  const about = `void ${voids.join(', ')}`;
  expect(groupCautions([{ code: 'not-secured', about, text }])[0]?.lines[0]?.about).toBe('voids V1 to V60');
  expect(line?.about).toBe('voids V1 to V60');
  expect(line?.text).toBe(`No hold-down is worked out for ${voids.join(', ')}.`);
  expect(`${line?.text} ${line?.rest}`).toBe(text);
});
