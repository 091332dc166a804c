/** What a plan says keeps its value down. */
import { expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import { planJob } from '../../src/plan/planner.ts';

/** What binds in a void with plenty of steel beside it, as fitted out. */
async function bindsIn(fitted: object): Promise<string[]> {
  const job = jobSchema.parse({
    format: 'kentledge-job/1',
    name: 'One void',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2000, count: 20 }],
    voids: [{ void: 'K', length: 620, width: 260, height: 110, ...fitted }],
  });
  const result = await planJob(job, { effort: 'quick', jobDigest: `sha256:${'0'.repeat(64)}` });
  if (result.kind !== 'plan') throw new Error('nothing is placed');
  return result.plan.binds ?? [];
}

const room = (lines: string[]) => lines.filter((line) => line.includes(' K'));

test('a void that is full is told, and nothing fitted where nothing is', async () => {
  expect(room(await bindsIn({}))).toEqual(['Room binds in K: more height, width or length would take more steel.']);
});

test('what is fitted in a full void and may take room is named', async () => {
  const lines = room(
    await bindsIn({
      drain: { where: 'middle', width: 60, height: 30 },
      keepOut: [{ what: 'bolt', along: [0, 60], across: [-130, -90], up: [0, 60] }],
    }),
  );
  expect(lines).toHaveLength(2);
  expect(lines[1]).toContain('30 mm high over dunnage of 12 mm');
  expect(lines[1]).toContain('what bundles stay off');
  expect(lines[1]).not.toContain('opening');
});

test('a channel no higher than the dunnage takes no room', async () => {
  expect(room(await bindsIn({ drain: { where: 'middle', width: 60, height: 12 } }))).toHaveLength(1);
});
