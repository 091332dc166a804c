/** An empty void that could take some is told what may keep it empty: labour, and of the aims those that are stated. */
import { expect, test } from 'vitest';
import { type JobInput, jobSchema } from '../../src/job/job.ts';
import { whyEmpty, whyShut } from '../../src/plan/nothing.ts';
import { problemOf } from '../../src/plan/problem.ts';
import { trialJobInput } from './trialPlan.ts';

function reasons(aims: JobInput['aims'], height = 150) {
  const input = trialJobInput();
  const problem = problemOf(jobSchema.parse({ ...input, aims, voids: [{ ...input.voids[0], height }] }));
  const space = problem.spaces[0]!;
  return { shut: whyShut(problem, space), ...whyEmpty(problem, space) };
}

test('only aims that are stated are told as what may keep a void empty', () => {
  const labour = 'what would be placed is worth less than its scrap and its labour';
  const moved = 'move the centre or the spread from what is asked for';
  expect(reasons({})).toMatchObject({ shut: null, why: labour });
  expect(reasons({}).remedy).not.toContain('aims,');
  expect(reasons({ centre: { x: [4, 5] } }).why).toBe(`${labour}, or would ${moved}`);
  expect(reasons({ spread: 1 }).why).toBe(`${labour}, or would ${moved}`);
  expect(reasons({ ballast: 40 }).why).toBe(`${labour}, or would pass the ballast asked for`);
  const both = reasons({ centre: { y: [0, 1] }, ballast: 40 });
  expect(both.why).toBe(`${labour}, or would ${moved} or pass the ballast asked for`);
  expect(both.remedy).toContain('allow more in the aims');
});

test('a void that no section goes into is shut whatever is aimed at', () => {
  const { shut, why } = reasons({ centre: { x: [4, 5] } }, 30);
  expect(shut).not.toBeNull();
  expect(why).toBe(shut!.why);
  expect(why).toContain('no section of the pile fits');
});
