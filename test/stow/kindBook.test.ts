/** Kinds of tier and fills that lengths have in common are those that each would have by itself. */
import { expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import { problemOf } from '../../src/plan/problem.ts';
import { RunBook } from '../../src/stow/runSpace.ts';
import { throwDice } from '../bench/dice.ts';
import { randomJob } from '../bench/jobs.ts';

test.each([1, 2, 3, 4])(
  'a length asked for after many others has the kinds and fills of a book of its own, job %i',
  (seed) => {
    const job = jobSchema.parse(randomJob(seed, { small: true, shapes: true }));
    const { steels, spaces } = problemOf(job);
    const dice = throwDice(seed);
    let alike = 0;
    for (const laid of spaces.flatMap((space) => space.laid)) {
      const bookOf = () => new RunBook(laid, steels, job.bundle, job.saw);
      const book = bookOf();
      const kinds = new Set<unknown>();
      for (let n = 0; n < 40; n++) {
        const length = dice.whole(150, Math.max(160, Math.floor(laid.length) - 40));
        const [kept, own] = [book, bookOf()].map((one) => one.space(laid.clear.ends, length));
        expect(kept!.kinds).toEqual(own!.kinds);
        expect(kept!.fills).toEqual(own!.fills);
        expect(kept!.scarce).toBe(own!.scarce);
        for (const kind of kept!.kinds) {
          if (kinds.has(kind)) alike++;
          kinds.add(kind);
        }
      }
    }
    expect(alike).toBeGreaterThan(0);
  },
);
