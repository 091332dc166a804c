/** Figures as the pages print them. */

import { expect, test } from 'vitest';
import { MAKING_WORDS } from '../../server/paper/makingWords.ts';
import { centre, wordsIn } from '../../server/words.ts';

test('a centre is told by its side, never by a minus', () => {
  expect(centre({ x: 3.938, y: -0.0071, z: 0.47 })).toBe('3.94 m forward, 0.007 m to port, 0.47 m up');
  expect(centre({ x: 3.938, y: 0.25, z: 0.4 })).toBe('3.94 m forward, 0.25 m to starboard, 0.4 m up');
});

test('feet come from the length, not from metres already rounded', () => {
  const { centre: place, metres } = wordsIn('inches');
  expect(metres(2.4384, 1)).toBe('8.00\u00a0ft (2.4\u00a0m)');
  expect(wordsIn('metric').metres(2.4384, 1)).toBe('2.4\u00a0m');
  expect(place({ x: 0.4574, y: -0.0041, z: 0.0863 })).toBe(
    '1.50\u00a0ft (0.46\u00a0m) forward, 0.013\u00a0ft (0.004\u00a0m) to port, 0.28\u00a0ft (0.09\u00a0m) up',
  );
});

test('between a figure and its unit no line ends, and elsewhere it may', () => {
  const { kilograms, millimetres, percent, duration, tell } = wordsIn('metric');
  expect([kilograms(860), millimetres(1280), percent(0.016)]).toEqual(['860\u00a0kg', '1280\u00a0mm', '1.6\u00a0%']);
  expect(duration(320)).toBe('5\u00a0h 20\u00a0min');
  expect(tell('7 bars, 20 mm to 30 mm, 3.85 kg/m in 4 minutes')).toBe(
    '7 bars, 20\u00a0mm to 30\u00a0mm, 3.85\u00a0kg/m in 4 minutes',
  );
  expect(wordsIn('inches').kilograms(8)).toBe('17.6\u00a0lb (8\u00a0kg)');
});

test('what was written in one time zone keeps its day and its hour in any other', () => {
  const { day } = wordsIn('metric');
  const told = ['2026-11-24T23:30:00.000+13:00', '2026-11-25T00:10:00.000-08:00', '2026-11-24'].map(day);
  expect(told.map((text) => text.replaceAll('\u00a0', ' '))).toEqual([
    '24 Nov 2026, 23:30',
    '25 Nov 2026, 00:10',
    '24 Nov 2026',
  ]);
});

test('a single cut is one on the making list', () => {
  expect([1, 2].map((cuts) => MAKING_WORDS.bladesWhy(cuts).split(';')[0])).toEqual(['1 cut', '2 cuts']);
});

test('a mass in a sentence has no more decimals than beside it; what is per metre stays', () => {
  const { tellRoughly } = wordsIn('metric');
  expect(tellRoughly('The ballast asked for, 350 kg, is reached: the bundles with their bands weigh 354.39 kg.')).toBe(
    'The ballast asked for, 350\u00a0kg, is reached: the bundles with their bands weigh 354\u00a0kg.',
  );
  expect(tellRoughly('V1 has its target of 40.25 kg, at 3.853 kg/m.')).toBe(
    'V1 has its target of 40.3\u00a0kg, at 3.853\u00a0kg/m.',
  );
  expect(wordsIn('inches').tellRoughly('They weigh 354.39 kg.')).toBe(wordsIn('inches').tell('They weigh 354.39 kg.'));
});
