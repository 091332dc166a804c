/** A plan that makes her list says so among its cautions; one that makes up for a list does not. */
import { expect, test } from 'vitest';
import { withList } from '../../src/balance/listsMore.ts';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { planJob } from '../../src/plan/planner.ts';
import { keptBy } from '../keptBy.ts';

const VESSEL = { displacement: 900, waterlineLength: 5, beam: 1.8, vcg: 0.5, gm: 0.5 };

function jobOf(y: number, vessel: JobInput['vessel']) {
  const read = readJobValue({
    format: 'kentledge-job/1',
    name: 'One side',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2900, count: 6 }],
    bundle: { limit: 6 },
    voids: [{ void: 'V', length: 600, width: 200, height: 110, origin: { x: 2.2, y, z: 0.12 } }],
    vessel,
    aims: { kgPerHour: 0 },
  });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value;
}

/** The plan of a void that far from the centreline. */
const planned = keptBy(async (y: number) => {
  const { job, digest } = jobOf(y, VESSEL);
  const result = await planJob(job, { effort: 'quick', seed: 1, jobDigest: digest });
  if (result.kind !== 'plan') throw new Error('no plan');
  return result.plan;
});

async function told(y: number, vessel: JobInput['vessel']) {
  const { cautions } = withList(jobOf(y, vessel).job, await planned(y));
  return cautions.filter(({ code }) => code === 'lists-more');
}

test('a plan that lists her a degree or more is cautioned, once, however often it is asked', async () => {
  const [caution, ...more] = await told(-0.4, VESSEL);
  expect(more).toEqual([]);
  expect(caution!.text).toMatch(
    /^Reckoned with it: lists \d\.\d° to port; now taken as upright\. Ask for a centre to starboard or port/,
  );
  const { job } = jobOf(-0.4, VESSEL);
  const once = withList(job, await planned(-0.4));
  expect(withList(job, once)).toEqual(once);
});

test('what she lists now is told beside it, and a plan that makes up for it is not cautioned', async () => {
  const [caution] = await told(-0.4, { ...VESSEL, list: -1 });
  expect(caution!.text).toMatch(/to port; now 1° to port\./);
  expect(await told(-0.4, { ...VESSEL, list: 3 })).toEqual([]);
});

test('nothing is said where she stays upright, or where her list can not be told', async () => {
  expect(await told(0, VESSEL)).toEqual([]);
  expect(await told(-0.4, { waterlineLength: 5 })).toEqual([]);
  expect(await told(-0.4, undefined)).toEqual([]);
});
