/** What was read afloat: kept with the job, in the order taken, correctable, and never lost. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { effectOf, marksOf } from '../../src/balance/float.ts';
import { hydrostaticsOf } from '../../src/balance/hydrostatics.ts';
import { sumMoments, weightsByVoid } from '../../src/balance/moments.ts';
import { momentBesides } from '../../src/balance/readList.ts';
import { readPdf, textOf } from './paper/readPdf.ts';
import { stackedPair } from './paper/stackedPlan.ts';
import { BOGBEAN, openWorld, plainSpaces, type World } from './world.ts';

let world: World;
let now = new Date();
beforeEach(async () => {
  now = new Date(2026, 4, 4, 10, 0);
  world = await openWorld(undefined, undefined, () => now);
});
afterEach(() => world.close());

const { vessel } = JSON.parse(BOGBEAN);
const pair = stackedPair({ voids: 4, runs: 2, tiers: 3, across: 2 });

async function planOf(): Promise<{ job: number; body: string; plan: string }> {
  const body = JSON.stringify({ ...pair.job, vessel: { ...vessel, freeboard: 0.7, freeboardLeast: 0.45 } });
  const job = Number((await world.bring(body)).split('/').at(-1));
  return { job, body, plan: `/plans/${addPlan(job, body)}` };
}

function addPlan(job: number, body: string): number {
  return recordPlan(world.store, { job, body }, JSON.stringify(pair.plan), null, false, now.toISOString());
}

/** Writes a reading and gives the page that follows. */
async function write(plan: string, fields: Record<string, string>): Promise<string> {
  const answer = await world.post(`${plan}/read`, { do: 'keep', ...fields });
  expect(answer.status).toBe(303);
  return world.text(answer.headers.get('location')!.replace(/#.*/, ''));
}

const fieldOf = (page: string, name: string) => new RegExp(`name="${name}"[^>]* value="([^"]*)"`).exec(page)?.[1];
const listOf = (page: string) => /<ol class="taken">([\s\S]*?)<\/ol>/.exec(page)?.[1] ?? '';

describe('what was read afloat', () => {
  test('stands in the order taken, with what was in her then, what it changed and what was foretold of that', async () => {
    const { plan } = await planOf();
    now = new Date(2026, 4, 5, 12, 0);
    const put = pair.plan.bundles.flatMap(({ order }, n) => (order <= 9 ? [[`in.${n}`, 'on']] : []));
    await world.post(`${plan}/stowed`, Object.fromEntries(put));
    now = new Date(2026, 4, 5, 15, 0);
    await write(plan, {
      on: '2026-05-05',
      at: '14:30',
      who: 'A. Reader',
      forward: '0.885',
      aft: '114 cm',
      list: '1 to port',
      period: '3.2',
      note: 'two people,\n 40 L of water',
    });
    // Written afterwards, and read before.
    const page = await write(plan, { on: '2026-05-05', at: '09:00', forward: '0.86', aft: '1.12' });
    const list = listOf(page);
    expect([...list.matchAll(/quiet">no\. (\d)/g)].map(([, no]) => no)).toEqual(['2', '1']);
    const [, first, then] = list.split('<li id="reading-');
    expect(first).toContain('Nothing of plan 1 was in her by the record.');
    expect(first).toContain('Draught 0.86 m forward, 1.12 m aft.');
    const bundles = pair.plan.bundles.filter(({ order }) => order <= 9);
    const weights = [...weightsByVoid(pair.job, { ...pair.plan, bundles }).values()].flat();
    const marks = marksOf(hydrostaticsOf(vessel), sumMoments(weights));
    if (marks.kind !== 'answer') throw new Error(marks.why);
    expect(then).toContain('In her by the record of plan 1: 108 kg in 36 bundles, V1-01 to V1-09');
    expect(then).toContain('Draught 0.885 m forward, 1.14 m aft. Lists 1° to port. One roll 3.2 s.');
    expect(then).toContain(`Since no. 2: forward down 2.5 cm (foretold up ${(-marks.forward.likely).toFixed(1)} cm)`);
    // What is read of list and roll stands beside what is foretold of it, too.
    const { stability } = effectOf(vessel, weights);
    if (stability.kind !== 'answer') throw new Error(stability.why);
    const { low, likely, high } = stability.period;
    const roll = `one roll about ${likely.toFixed(1)} s (${low.toFixed(1)} to ${high.toFixed(1)})`;
    expect(then).toContain(`Foretold: no list, ${roll}.`);
    expect(first).not.toContain('Foretold');
    expect(then).toContain('“two people, 40 L of water”');
    // Whoever read last is likely to read next.
    expect(fieldOf(page, 'who')).toBe('A. Reader');
  });

  test('stays with the job: a new plan, a changed job and a record written to later take nothing from it', async () => {
    const { job, body, plan } = await planOf();
    await write(plan, { on: '2026-05-04', at: '09:00', forward: '0.9', aft: '1.1', who: 'A. Reader' });
    const serial = addPlan(job, body.replace('"Stacked"', '"Stacked "'));
    await world.post(`${plan}/stowed`, { 'in.0': 'on' });
    world.store.jobs.save(job, 1, 'Other', '{"name":"Other"}', now.toISOString());
    for (const own of [plan, `/plans/${serial}`]) {
      const list = listOf(await world.text(`${own}/read`));
      expect(list).toContain('Draught 0.9 m forward, 1.1 m aft.');
      expect(list).toContain('Nothing of plan 1 was in her by the record.');
    }
    const again = world.store.taken.of(job);
    expect(again).toHaveLength(1);
  });

  test('a correction keeps what it said before; one that comes late is kept out, with what was typed, until it is looked at', async () => {
    const { job, plan } = await planOf();
    await write(plan, { on: '2026-05-04', at: '09:00', forward: '0.9', aft: '1.1' });
    const one = await world.text(`${plan}/read?correct=1`);
    const other = await world.text(`${plan}/read?correct=1`);
    expect(fieldOf(one, 'forward')).toBe('0.9');
    const from = (page: string) => ({ number: '1', seen: fieldOf(page, 'seen')!, form: fieldOf(page, 'form')! });
    const page = await write(plan, { ...from(one), on: '2026-05-04', at: '09:00', forward: '0.91', aft: '1.1' });
    expect(listOf(page)).toContain('Draught 0.91 m forward');
    expect(listOf(page)).toMatch(/what it said before<\/summary><ul><li>2026-05-04 09:00: Draught 0\.9 m forward/);
    const late = await world.post(`${plan}/read`, { ...from(other), do: 'keep', forward: '0.93', aft: '1.12' });
    expect(late.status).toBe(422);
    const told = plainSpaces(await late.text());
    expect(told).toContain('no. 1 was corrected by another since this page was shown');
    expect(listOf(told)).toContain('Draught 0.91 m forward');
    expect(fieldOf(told, 'forward')).toBe('0.93');
    expect(world.store.taken.of(job)).toHaveLength(2);
    const kept = await write(plan, { ...from(told), on: '2026-05-04', at: '09:00', forward: '0.93', aft: '1.12' });
    expect(listOf(kept)).toContain('Draught 0.93 m forward');
    expect(listOf(kept)).toContain('Corrected 2 times');
    expect(world.store.taken.of(job).map(({ reading }) => reading.forward)).toEqual([0.9, 0.91, 0.93]);
  });

  test('a form that is sent twice writes once, and the same figures read again are another reading', async () => {
    const { job, plan } = await planOf();
    const form = fieldOf(await world.text(`${plan}/read`), 'form')!;
    const fields = { on: '2026-05-04', at: '09:00', forward: '0.9', aft: '1.1' };
    await write(plan, { ...fields, form });
    await write(plan, { ...fields, form });
    expect(world.store.taken.of(job)).toHaveLength(1);
    const next = fieldOf(await world.text(`${plan}/read`), 'form')!;
    expect(next).not.toBe(form);
    await write(plan, { ...fields, form: next });
    expect(world.store.taken.of(job).map(({ number }) => number)).toEqual([1, 2]);
  });

  test('is taken back and counted again, and never goes', async () => {
    const { job, plan } = await planOf();
    await write(plan, { on: '2026-05-04', at: '09:00', forward: '0.9', aft: '1.1' });
    await write(plan, { on: '2026-05-04', at: '09:30', forward: '0.95', aft: '1.15' });
    const move = async (act: string) => {
      const page = await world.text(`${plan}/read?correct=2`);
      expect(page).toContain(`value="${act}"`);
      return write(plan, { number: '2', seen: fieldOf(page, 'seen')!, form: fieldOf(page, 'form')!, do: act });
    };
    const struck = await move('strike');
    expect(listOf(struck)).toContain('Taken back: it does not count.');
    expect(listOf(struck)).toContain('Draught 0.95 m forward');
    expect(listOf(struck)).not.toContain('Since no. 1');
    expect(listOf(await move('count'))).toContain('Since no. 1');
    expect(world.store.taken.of(job)).toHaveLength(4);
  });

  test('what can not be read is told all at once with what was typed, and nothing is kept', async () => {
    const { job, plan } = await planOf();
    const fields = { forward: '88', list: '12 to nowhere', on: '2026-05-05', at: '25:00', who: 'x'.repeat(90) };
    const answer = await world.post(`${plan}/read`, { do: 'keep', ...fields, note: 'n'.repeat(600) });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    for (const id of ['read-forward', 'read-list', 'read-on', 'read-at', 'read-who', 'read-note'])
      expect(page, id).toContain(`<a href="#${id}">`);
    expect(fieldOf(page, 'forward')).toBe('88');
    expect(page).toContain('n'.repeat(600));
    const empty = await world.post(`${plan}/read`, { do: 'keep', who: 'A. Reader' });
    expect(await empty.text()).toContain('Nothing is said of what was read.');
    expect(world.store.taken.of(job)).toEqual([]);
    expect((await world.post(`${plan}/read`, { do: 'keep', number: '7', forward: '1' })).status).toBe(404);
  });

  test('of an earlier day what was in her then; of another moment, or when asked, it is taken from the record anew', async () => {
    const { plan } = await planOf();
    await world.post(`${plan}/stowed`, { 'in.0': 'on', 'in.1': 'on' });
    now = new Date(2026, 4, 6, 10, 0);
    await world.post(`${plan}/stowed`, { 'in.2': 'on', 'was.0': 'on', 'was.1': 'on', 'in.0': 'on', 'in.1': 'on' });
    const page = await write(plan, { on: '2026-05-05', forward: '0.9' });
    expect(listOf(page)).toContain('6 kg in 2 bundles, V1-01, V1-02');
    const correct = async (fields: Record<string, string>) => {
      const form = await world.text(`${plan}/read?correct=1`);
      return write(plan, { number: '1', seen: fieldOf(form, 'seen')!, form: fieldOf(form, 'form')!, ...fields });
    };
    const later = await correct({ on: '2026-05-06', at: '10:00', forward: '0.9' });
    expect(listOf(later)).toContain('9 kg in 3 bundles, V1-01 to V1-03');
    // By the scale from now on; what was written stands until it is asked for anew.
    await world.post(`${plan}/weighed`, { 'mass.0': '3.4', 'told.0': '' });
    expect(listOf(await correct({ on: '2026-05-06', at: '10:00', forward: '0.91' }))).toContain('9 kg in 3');
    const anew = await correct({ on: '2026-05-06', at: '10:00', forward: '0.91', anew: 'on' });
    expect(listOf(anew)).toContain('9.4 kg in 3');
  });

  test('a freeboard under the least allowed is told loud', async () => {
    const { plan } = await planOf();
    const low = await write(plan, { 'freeboard.port': '0.4', 'freeboard.starboard': '0.5' });
    expect(low).toContain('Freeboard 0.4 m to port: under the least allowed, 0.45 m.');
    expect(low).toContain('Freeboard 0.4 m to port, 0.5 m to starboard.');
  });

  test('that is otherwise than the record has it is kept as typed, and told so on page and register', async () => {
    const { job, plan } = await planOf();
    const put = pair.plan.bundles.flatMap((one, n) => (one.void === 'V2' ? [[`in.${n}`, 'on']] : []));
    await world.post(`${plan}/stowed`, Object.fromEntries(put));
    const bundles = pair.plan.bundles.filter((one) => one.void === 'V2');
    const { stability } = effectOf(vessel, [...weightsByVoid(pair.job, { ...pair.plan, bundles }).values()].flat());
    if (stability.kind !== 'answer') throw new Error(stability.why);
    const reckoned = stability.list.likely;
    expect(reckoned).toBeGreaterThan(0.1);
    const same = await write(plan, { list: `${reckoned.toFixed(1)} to starboard` });
    expect(same).not.toContain('otherwise than reckoned');
    const page = await write(plan, { list: '1.5 to port' });
    const list = listOf(page);
    expect(list).toContain('Lists 1.5° to port.');
    const words = `List: reckoned ${reckoned.toFixed(1)}° to starboard, read 1.5° to port: ${(reckoned + 1.5).toFixed(1)}° farther to port`;
    expect(list).toContain(words);
    expect(list.split('Read otherwise than reckoned from the record.')).toHaveLength(2);
    expect(list).toMatch(/Look first:<\/strong> is the list written to the side that she leans to; is there water/);
    expect(list).toContain(`<a href="${plan}/moves">moves that are proposed</a> go by it`);
    expect(world.store.taken.of(job).map(({ reading }) => reading.list)).toEqual([Number(reckoned.toFixed(1)), -1.5]);
    const answer = await world.get(`${plan}/papers/ballast-register.pdf`);
    const register = textOf(await readPdf(Buffer.from(await answer.arrayBuffer()))).replace(/\s+/g, ' ');
    expect(register).toContain(`No. 2: Read otherwise than reckoned from the record. ${words}`);
    expect(register).not.toContain('No. 1: Read otherwise');
    // A survey goes by what is reckoned, and says so.
    expect(await world.text(`${plan}/survey`)).toContain(words);
    const sheet = await world.get(`${plan}/papers/breaking-out.pdf`);
    const told = textOf(await readPdf(Buffer.from(await sheet.arrayBuffer()))).replace(/\s+/g, ' ');
    expect(told).toContain(`Read otherwise, the last time, than reckoned from the record: ${words}`);
    await write(plan, { list: `${reckoned.toFixed(1)} to starboard`, who: 'Another' });
    expect(await world.text(`${plan}/survey`)).not.toContain('otherwise than reckoned');
  });

  test('of a mark with its point slipped is kept as typed and asked about, and moves are not proposed from it', async () => {
    const { job, plan } = await planOf();
    await world.post(`${plan}/stowed`, { 'in.0': 'on', 'in.1': 'on' });
    const { draughtForward: forward, draughtAft: aft } = vessel;
    const list = listOf(await write(plan, { forward: '8.91', aft: String(aft) }));
    expect(list).toContain('Marks that do not go together.');
    expect(list).toContain(`8.91 m and ${forward} m before do not go together: was a point or a digit slipped?`);
    expect(list).not.toMatch(/kg (more|less) in her|moved 1 m|otherwise than reckoned/);
    expect(list).toContain('no moves are proposed from it');
    expect(world.store.taken.of(job).map(({ reading }) => reading.forward)).toEqual([8.91]);
    const moves = await world.text(`${plan}/moves`);
    expect(fieldOf(moves, 'forward')).toBe('8.91');
    expect(moves).toContain('This is not reckoned with:');
    expect(moves).toContain(`8.91 m and ${forward} m before do not go together.`);
    expect(moves).toContain('Nothing is proposed from marks that do not go together');
    expect(moves).not.toMatch(/What brings her nearest|8\.9\d+ m forward/);
    const answer = await world.get(`${plan}/papers/ballast-register.pdf`);
    const register = textOf(await readPdf(Buffer.from(await answer.arrayBuffer()))).replace(/\s+/g, ' ');
    expect(register).toContain('No. 1: Marks that do not go together. Fore end: 8.91 m and');
    // The next is not told as a change since it.
    const next = listOf(await write(plan, { forward: '0.891', aft: String(aft) }));
    expect(next).not.toContain('Since no. 1');
    expect(await world.text(`${plan}/moves`)).toContain('What brings her nearest');
  });

  test('without a time stands where it was written among those of its day, with what was in her then', async () => {
    const { plan } = await planOf();
    const untimed = { at: '', forward: '0.87', aft: '1.1' };
    await write(plan, untimed);
    now = new Date(2026, 4, 4, 12, 0);
    await world.post(`${plan}/stowed`, { 'in.0': 'on', 'in.1': 'on' });
    const list = listOf(await write(plan, { at: '12:00', forward: '0.89', aft: '1.11' }));
    expect([...list.matchAll(/id="reading-(\d)"/g)].map(([, number]) => number)).toEqual(['1', '2']);
    expect(list).toContain('Since no. 1: forward down 2.0 cm');
    expect(list).not.toContain('Since no. 2');
    // Taken anew from the record it is what was in her when it was written.
    now = new Date(2026, 4, 4, 13, 0);
    const { id } = world.store.taken.of(1)[0]!;
    const anew = listOf(await write(plan, { ...untimed, number: '1', seen: String(id), anew: 'on' }));
    expect(anew.indexOf('Nothing of plan 1 was in her')).toBeGreaterThan(0);
    expect(anew.indexOf('Nothing of plan 1 was in her')).toBeLessThan(anew.indexOf('id="reading-2"'));
  });

  test('of a roll with its point misplaced is asked about when it is written down', async () => {
    const { plan } = await planOf();
    await world.post(`${plan}/stowed`, { 'in.0': 'on' });
    expect(await write(plan, { period: '3.1' })).not.toContain('otherwise than reckoned');
    const page = await write(plan, { period: '31' });
    expect(page).toMatch(/One roll: reckoned about [^<]*, read 31 s: \d+\.\d times as long\./);
    expect(page).toContain('Look first:</strong> was one whole roll timed, there and back');
  });

  test('stands on the register, with what it said before and what was taken back', async () => {
    const { job, plan } = await planOf();
    const register = async () => {
      const answer = await world.get(`${plan}/papers/ballast-register.pdf`);
      return textOf(await readPdf(Buffer.from(await answer.arrayBuffer()))).replace(/\s+/g, ' ');
    };
    expect(await register()).not.toContain('Read afloat');
    await write(plan, { on: '2026-05-03', at: '09:00', forward: '0.86', aft: '1.12', who: 'A. Reader' });
    await world.post(`${plan}/stowed`, { 'in.0': 'on' });
    const fields = { on: '2026-05-04', forward: '0.88', aft: '1.14', list: '1.5 to starboard', period: '3.2' };
    await write(plan, { ...fields, note: 'two people', 'freeboard.port': '0.4' });
    const form = await world.text(`${plan}/read?correct=1`);
    const seen = { number: '1', seen: fieldOf(form, 'seen')!, form: fieldOf(form, 'form')! };
    await write(plan, { ...seen, on: '2026-05-03', at: '09:10', forward: '0.87', aft: '1.12', who: 'A. Reader' });
    await write(plan, { on: '2026-05-04', at: '09:00', forward: '0.99' });
    const last = await world.text(`${plan}/read?correct=3`);
    await write(plan, { number: '3', seen: fieldOf(last, 'seen')!, form: fieldOf(last, 'form')!, do: 'strike' });
    const told = await register();
    expect(told).toContain('Read afloat, in the order taken');
    expect(told).toMatch(/1 2026-05-03 09:10 A\. Reader 0\.87 1\.12 nothing of 1/);
    expect(told).toMatch(/2 2026-05-04 0\.88 1\.14 1\.5° stbd 3\.2 3 kg in 1, plan 1/);
    expect(told).toContain('No. 2: Freeboard 0.4 m to port. Besides: “two people”.');
    expect(told).toContain('No. 2: Freeboard 0.4 m to port: under the least allowed, 0.45 m.');
    expect(told).toContain('No. 1: Corrected; it said before: 2026-05-03 09:00: Draught 0.86 m forward, 1.12 m aft.');
    expect(told).toContain('No. 3: TAKEN BACK, does not count: 2026-05-04 09:00: Draught 0.99 m forward.');
    await world.post(`/jobs/${job}/units`, { do: 'inches' });
    const inFeet = await register();
    expect(inFeet).toMatch(/fwd ft, m aft ft, m .*1 2026-05-03 09:10 A\. Reader 2\.85 0\.87 3\.67 1\.12 nothing of 1/);
    expect(inFeet).toMatch(/1\.5° stbd 3\.2 6\.6 lb 3 kg in 1, plan 1/);
    expect(inFeet).toContain('No. 2: Freeboard 1.31 ft (0.4 m) to port. Besides: “two people”.');
    expect(inFeet).toContain(
      'it said before: 2026-05-03 09:00: Draught 2.82 ft (0.86 m) forward, 3.67 ft (1.12 m) aft.',
    );
  });

  test('the trial takes what was read before and after from there, unless something is typed', async () => {
    const { plan } = await planOf();
    expect(fieldOf(await world.text(`${plan}/trial`), 'beforeForward')).toBe('0.86');
    await write(plan, { on: '2026-05-03', at: '09:00', forward: '0.9', aft: '1.1' });
    const put = pair.plan.bundles.flatMap(({ order }, n) => (order <= 9 ? [[`in.${n}`, 'on']] : []));
    await world.post(`${plan}/stowed`, Object.fromEntries(put));
    await write(plan, { on: '2026-05-04', forward: '0.93', aft: '1.13', period: '3' });
    const page = await world.text(`${plan}/trial`);
    const names = ['beforeForward', 'beforeAft', 'afterForward', 'afterAft', 'period'];
    expect(names.map((name) => fieldOf(page, name))).toEqual(['0.9', '1.1', '0.93', '1.13', '3']);
    expect(page).toContain('as read on 2026-05-04, no. 2');
    expect(page).toContain('Forecast and read');
    expect(page).not.toContain('Write these readings down');
    const typed = await world.text(`${plan}/trial?afterForward=0.95&afterAft=1.14`);
    expect(fieldOf(typed, 'afterForward')).toBe('0.95');
    const way = /href="([^"#]*)#write">Write these readings down/.exec(typed)![1]!.replaceAll('&amp;', '&');
    const form = await world.text(way);
    expect([fieldOf(form, 'forward'), fieldOf(form, 'aft'), fieldOf(form, 'period')]).toEqual(['0.95', '1.14', '3']);
    // What was taken back counts for nothing.
    const last = await world.text(`${plan}/read?correct=2`);
    await write(plan, { number: '2', seen: fieldOf(last, 'seen')!, form: fieldOf(last, 'form')!, do: 'strike' });
    expect(fieldOf(await world.text(`${plan}/trial`), 'afterForward')).toBe('');
  });

  test('a list read with the fixed part in her is made up for by what goes in after', async () => {
    const { plan } = await planOf();
    const first = pair.plan.bundles.filter(({ order }) => order <= 9);
    await world.post(
      `${plan}/stowed`,
      Object.fromEntries(pair.plan.bundles.flatMap(({ order }, n) => (order <= 9 ? [[`in.${n}`, 'on']] : []))),
    );
    const { marks } = effectOf(vessel, [...weightsByVoid(pair.job, { ...pair.plan, bundles: first }).values()].flat());
    if (marks.kind !== 'answer') throw new Error(marks.why);
    const [forward, aft] = [0.86 + marks.forward.likely / 100, 1.12 + marks.aft.likely / 100].map(String);
    const asked = async (list: string): Promise<{ page: string; port: number; starboard: number }> => {
      const fields = { on: '2026-05-04', forward: forward!, aft: aft! };
      await write(plan, { ...fields, list });
      const page = await world.text(`${plan}/trial?share=75`);
      const end = [...page.matchAll(/data-label="in the end">(\d+) of/g)].map(([, count]) => Number(count));
      // V1 and V3 are to port.
      return { page, port: end[0]! + end[2]!, starboard: end[1]! + end[3]! };
    };
    const upright = await asked('0');
    expect(upright.page).toContain('Read with these in her, she lists not at all');
    expect(upright.port).toBe(upright.starboard);
    const listing = await asked('1.5 to port');
    expect(listing.page).toContain('Read with these in her, she lists 1.5° to port');
    expect(listing.starboard).toBeGreaterThan(listing.port);
    // What would be there without her listing leaves no moment besides.
    const weights = [
      ...weightsByVoid(pair.job, { ...pair.plan, bundles: first.filter((one) => one.void !== 'V1') }).values(),
    ].flat();
    const { stability } = effectOf(vessel, weights);
    if (stability.kind !== 'answer') throw new Error(stability.why);
    expect(Math.abs(stability.list.likely)).toBeGreaterThan(0.05);
    expect(momentBesides(pair.job, vessel, weights, stability.list.likely)).toBeCloseTo(0, 1);
    // It is what the record does not explain, and told so.
    expect(listing.page).toMatch(
      /It is otherwise than reckoned from the record:<\/strong> look at <a href="\/plans\/1\/read#reading-2">no\. 2/,
    );
    expect(upright.page).not.toContain('otherwise than reckoned');
    // Of another number of bundles in her it is not counted.
    expect(await world.text(`${plan}/trial?share=50`)).not.toContain('Read with these in her');
  });
});
