/** Tiny random jobs: one or two boxes, one or two sections, a few bars; planned in a blink. */
import { type Job, type JobInput, jobSchema } from '../../src/job/job.ts';
import type { Dice } from '../bench/dice.ts';
import { throwSection } from '../stow/spaces.ts';

export interface TinyOptions {
  voids?: number;
  sections?: number;
  caps?: boolean;
}

export function tinyInput(dice: Dice, { voids = 2, sections = 2, caps = true }: TinyOptions = {}): JobInput {
  const kinds = Array.from({ length: dice.whole(1, sections) }, () => throwSection(dice));
  const pile = Array.from({ length: kinds.length + dice.pick([0, 1]) }, (_, n) => {
    const length = dice.whole(700, 2400);
    const from = dice.whole(50, length - 100);
    return {
      lot: 'ABCD'[n]!,
      section: kinds[n % kinds.length]!,
      length,
      count: dice.whole(1, 4),
      bow: dice.stepped(0, 3, 0.5),
      ...(dice.chance(0.3) ? { spoiled: [{ from, to: from + dice.pick([1, 30]) }] } : {}),
    };
  });
  const places = Array.from({ length: dice.whole(1, voids) }, (_, n) => ({
    void: `V${n + 1}`,
    length: dice.whole(350, 900),
    width: dice.whole(90, 220),
    height: dice.whole(70, 130),
    origin: { x: dice.stepped(1, 6, 0.1), y: dice.stepped(-0.5, 0.5, 0.1), z: 0.2 },
    rank: dice.whole(1, 3),
    ...(caps && dice.chance(0.25) ? { target: dice.whole(5, 30) } : {}),
    ...(caps && dice.chance(0.25) ? { most: dice.whole(30, 60) } : {}),
  }));
  return {
    format: 'kentledge-job/1',
    name: 'Tiny',
    pile,
    saw: { kerf: dice.pick([0, 1.3, 2.5, 3]), squaring: dice.pick([0, 4]), keepFrom: dice.pick([300, 900]) },
    bundle: { limit: dice.stepped(4, 10, 0.5), wrapping: dice.pick([0, 0.05, 0.3]), maxBars: dice.pick([4, 30]) },
    voids: places,
    aims: { kgPerHour: dice.pick([0, 1, 5]), ...(caps && dice.chance(0.3) ? { ballast: dice.whole(8, 40) } : {}) },
  };
}

export function tinyJob(dice: Dice, options: TinyOptions = {}): Job {
  return jobSchema.parse(tinyInput(dice, options));
}
