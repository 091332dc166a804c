/** Moves that trim her: proposed by what was read, written down when they are done, and all else goes by them. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { effectOf } from '../../src/balance/float.ts';
import { weightsByVoid } from '../../src/balance/moments.ts';
import type { Job } from '../../src/job/job.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { movedPlan } from '../../src/plan/moved.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { vessel } from '../balance/knownVessel.ts';
import { bringPlanned } from './keepPlan.ts';
import { readPdf, textOf } from './paper/readPdf.ts';
import { stackedPair } from './paper/stackedPlan.ts';
import { unzip } from './paper/unzip.ts';
import { openWorld, type World } from './world.ts';

let world: World;
beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

/** A job of four voids, of which the second has room for a tier more, with its plan of `runs` in each. */
function pairOf(runs: number): { job: Job; plan: Plan } {
  const { job, plan } = stackedPair({ voids: 4, runs, tiers: 2, across: 2 });
  const voids = job.voids.map((space, n) => (n === 1 ? { ...space, height: space.height + 60 } : space));
  return { job: { ...job, vessel, voids }, plan };
}

const { job, plan } = pairOf(1);

/** A plan all of which is in, and of which a list was read. */
async function stowed(list = '2 to port', pair = { job, plan }): Promise<{ path: string; serial: number }> {
  const { plan } = pair;
  const body = JSON.stringify(pair.job);
  const id = Number((await world.bring(body)).split('/').at(-1));
  const at = '2026-05-04T08:00:00Z';
  const serial = recordPlan(world.store, { job: id, body }, JSON.stringify(plan), null, false, at);
  await world.post(`/plans/${serial}/stowed`, Object.fromEntries(plan.bundles.map((_, n) => [`in.${n}`, 'on'])));
  await world.post(`/plans/${serial}/read`, { do: 'keep', list, forward: '0.9', aft: '1.1' });
  return { path: `/plans/${serial}`, serial };
}

const wayOf = (page: string, n = 0) =>
  [...page.matchAll(/formaction="([^"]*)">It is done/g)][n]![1]!.replaceAll('&amp;', '&');
const fieldOf = (page: string, name: string) => new RegExp(`name="${name}"[^>]* value="([^"]*)"`).exec(page)?.[1];
const post = (way: string, fields: Record<string, string> = {}) =>
  world.get(way, { method: 'POST', body: new URLSearchParams(fields) });

describe('moves that trim her', () => {
  test('are proposed by the list read last, with what she would then float like', async () => {
    const { path } = await stowed();
    const page = await world.text(`${path}/moves`);
    expect(fieldOf(page, 'list')).toBe('2 to port');
    expect([fieldOf(page, 'forward'), fieldOf(page, 'aft')]).toEqual(['0.9', '1.1']);
    expect(page).toMatch(/Move V[13]-0\d \(3 kg\) from V[13], run \d, tier 2 to V2, run \d, tier 3: its corner /);
    await world.post(`/jobs/1/units`, { do: 'inches' });
    const inFeet = (await world.text(`${path}/moves`)).replaceAll('&#34;', '"');
    expect(inFeet).toMatch(/Move V[13]-0\d \(6\.61 lb \(3 kg\)\) from .* tier 3: its corner /);
    expect(inFeet).toMatch(
      /its corner [^.]*" \([\d.]+ mm\) along, [^.]*" \([\d.]+ mm\) across, [^.]*" \([\d.]+ mm\) up/,
    );
    expect(inFeet).toMatch(/She should then be [\d.]+ ft \([\d.]+ m\) forward/);
    const lists = [...page.matchAll(/listing (?:about )?([\d.]+)° to port/g)].map(([, degrees]) => Number(degrees));
    expect(lists.length).toBeGreaterThan(2);
    for (const degrees of lists) expect(degrees).toBeLessThan(2);
    expect(page).toContain('ask a licensed naval architect or surveyor');
    // Upright, and no marks wanted: nothing to do.
    const upright = await world.text(`${path}/moves?list=0`);
    expect(upright).toContain('One move or two would bring her no nearer.');
    expect(await world.text(`${path}/moves?list=&forward=0.9`)).not.toContain('What brings her nearest');
    expect(await world.text(`${path}/moves?list=sideways`)).toContain('This is no list.');
  });

  test('go by what was read, and say so where it is otherwise than reckoned from the record', async () => {
    const { path } = await stowed('0');
    const agreed = await world.text(`${path}/moves`);
    expect(agreed).not.toContain('otherwise than reckoned');
    const port = await world.text(`${path}/moves?list=1.5+to+port`);
    expect(port).toContain('List: reckoned none, read 1.5° to port: 1.5° farther to port, as about');
    expect(port).toContain('What is proposed here goes by what was read.');
    expect(port).toContain('What brings her nearest');
    expect(await world.text(`${path}/moves?list=1.5+to+starboard`)).toContain('1.5° farther to starboard');
    // What stands as it was read is held against what was in her then; anything else against what is in her now.
    const all = Object.fromEntries(plan.bundles.map((_, n) => [`was.${n}`, 'on']));
    const starboard = plan.bundles.flatMap((one, n) => (/V[24]/.test(one.void) ? [[`in.${n}`, 'on']] : []));
    await world.post(`${path}/stowed`, { ...all, ...Object.fromEntries(starboard) });
    expect(await world.text(`${path}/moves`)).not.toContain('otherwise than reckoned');
    expect(await world.text(`${path}/moves?list=0.1+to+port`)).toMatch(
      /List: reckoned \d\.\d° to starboard, read 0\.1° to port/,
    );
    // A roll that was read with them is doubted with them.
    await world.post(`${path}/read`, { do: 'keep', list: '0', forward: '0.9', aft: '1.1', period: '31' });
    expect(await world.text(`${path}/moves`)).toMatch(/One roll: reckoned [^<]*, read 31 s/);
  });

  test('one that is done is written down: record, balance, register, papers and out-and-back go by where it lies', async () => {
    const { path, serial } = await stowed();
    const before = await world.text(`${path}/stowed`);
    const done = await post(wayOf(await world.text(`${path}/moves`)));
    expect(done.headers.get('location')).toBe(`${path}/moves?done=1`);
    const batches = world.store.moved.of(serial);
    expect(batches).toHaveLength(1);
    const lying = movedPlan(job, plan, batches[0]!);
    expect(checkPlan(job, lying)).toEqual([]);
    const moved = batches[0]!.map(({ bundle }) => bundle);
    const to = `to V2, run ${batches[0]![0]!.to.run}, tier 3`;
    expect(
      world.store.records
        .of(serial)
        .filter(({ what }) => what === 'moved')
        .map(({ bundle }) => bundle),
    ).toEqual(moved);
    // Of each page the effect of what is in is that of the plan as it lies.
    const after = await world.text(`${path}/stowed`);
    const sentence = (page: string) => /<p>(Down [^<]*)/.exec(page)![1];
    expect(sentence(after)).not.toBe(sentence(before));
    const voidOf = (page: string, name: string) =>
      page.slice(page.indexOf(`>${name} · `), page.indexOf('</section>', page.indexOf(`>${name} · `)));
    for (const mark of moved) {
      expect(voidOf(after, 'V2')).toContain(`<strong>${mark}</strong>`);
      expect(voidOf(after, mark.slice(0, 2))).not.toContain(`<strong>${mark}</strong>`);
    }
    expect(await world.text(`/b/${serial}/${moved[0]}`)).toContain(`moved from ${moved[0]!.slice(0, 2)}`);
    expect(await world.text(path)).toContain('moved to trim her');
    const paper = async (file: string) => {
      const answer = await world.get(`${path}/papers/${file}`);
      return textOf(await readPdf(Buffer.from(await answer.arrayBuffer()))).replace(/\s+/g, ' ');
    };
    const register = await paper('ballast-register.pdf');
    expect(register).toContain(to);
    expect(register).toMatch(/V2 [^:]*6 18 kg/);
    const digest = world.store.plans.find(serial)!.digest.slice(7, 15);
    expect(register).toContain(digest);
    expect(await paper('stowage.pdf')).toContain(`Moved here to trim her, and not as first planned: ${moved[0]}`);
    // The last in of V2 comes out first of it.
    const out = await paper('breaking-out.pdf');
    const first = plan.bundles.find((one) => one.void === 'V2' && one.order === 4)!.bundle;
    for (const mark of moved) expect(out.indexOf(mark)).toBeLessThan(out.indexOf(first));
    // The file is as it was made.
    expect(JSON.parse(await world.text(`${path}/plan.json`)).bundles).toEqual(plan.bundles);
    const table = await (await world.get(`${path}/tables/record.csv`)).text();
    expect(table).toMatch(new RegExp(`V2,${moved[0]},3,moved,"from V\\d, run \\d, tier 2 ${to}"`));
  });

  test('every page and paper of a plan stands after a move, and what is left to do too', async () => {
    const { path, serial } = await stowed();
    await post(wayOf(await world.text(`${path}/moves`)));
    const [moved] = world.store.moved.of(serial)[0]!;
    const pages = ['', '/stowed', '/survey', '/weighed', '/first-cuts', '/left', '/tags', '/trial', '/read', '/moves'];
    for (const page of pages) expect((await world.get(path + page)).status, page).toBe(200);
    const all = await world.get(`${path}/papers.zip`);
    const files = unzip(Buffer.from(await all.arrayBuffer()));
    expect(files.size).toBeGreaterThan(20);
    expect(files.get('plan.json')!.toString('utf8')).toBe(await world.text(`${path}/plan.json`));
    // The whole of V2 out, and the moved bundle with it.
    const out = await world.text(`${path}/survey?only=1`);
    expect(out).toContain(`<strong>${moved!.bundle}</strong>`);
    expect(await world.text(`/b/${serial}/${moved!.bundle}`)).toContain('V2');
    expect(world.log.filter(({ level }) => level === 'error')).toEqual([]);
    // What was read before stays as it was.
    const [read] = world.store.taken.of(world.store.plans.find(serial)!.job);
    expect(read!.reading.aboard.bundles).toHaveLength(plan.bundles.length);
  });

  test('more of them one after the other are written down at once', async () => {
    const { path, serial } = await stowed('4 to port');
    const page = await world.text(`${path}/moves`);
    const [, steps, way] = /On from the first: (\d) one after the other[\s\S]*?formaction="([^"]*)">It is done/.exec(
      page,
    )!;
    await post(way!.replaceAll('&amp;', '&'));
    const batches = world.store.moved.of(serial);
    expect(batches).toHaveLength(1);
    const written = world.store.records.of(serial).filter(({ what }) => what === 'moved' || what === 'ashore');
    expect(written.length).toBeGreaterThanOrEqual(Number(steps));
    expect(checkPlan(job, movedPlan(job, plan, batches[0]!))).toEqual([]);
  });

  test('a page that was overtaken writes nothing, nor does one sent twice', async () => {
    const { path, serial } = await stowed();
    const way = wayOf(await world.text(`${path}/moves`));
    await post(way);
    const again = await post(way);
    expect(again.headers.get('location')).toBe(`${path}/moves?stale=1`);
    expect(world.store.moved.of(serial)).toHaveLength(1);
    expect((await post(way.replace(/token=[^&]*/, 'token=x'))).status).toBe(403);
    expect(await world.text(`${path}/moves?stale=1`)).toContain('Nothing was written down.');
  });

  test('is taken back as a mistake, once, and both stay in the history', async () => {
    const { path, serial } = await stowed();
    await post(wayOf(await world.text(`${path}/moves`)));
    const fields = { do: 'back', moves: '1' };
    expect((await world.post(`${path}/moves`, fields)).headers.get('location')).toBe(`${path}/moves?back=1`);
    expect((await world.post(`${path}/moves`, fields)).headers.get('location')).toBe(`${path}/moves?stale=1`);
    const lying = world.store.moved.of(serial).reduce((own, shifts) => movedPlan(job, own, shifts), plan);
    const places = (of: typeof plan) =>
      of.bundles.map(({ bundle, void: name, run, tier, at }) => [bundle, name, run, tier, at]);
    expect(places(lying)).toEqual(places(plan));
    expect(checkPlan(job, lying)).toEqual([]);
    const [first] = world.store.moved.of(serial)[0]!;
    const page = await world.text(`/b/${serial}/${first!.bundle}`);
    expect(page).toMatch(/moved from V\d[\s\S]*moved back from V2/);
  });

  test('the marks wanted are those of the job, else those foretold of the whole plan, and stay as they are typed', async () => {
    const { path } = await stowed('0');
    // Nobody said how deep she was before.
    expect([fieldOf(await world.text(`${path}/moves`), 'wantForward')]).toEqual(['']);
    const drawn = { ...vessel, draughtForward: 0.86, draughtAft: 1.12 };
    const wantedOf = async (own: object) => {
      const body = JSON.stringify({ ...job, vessel: drawn, ...own });
      const id = Number((await world.bring(body)).split('/').at(-1));
      const at = '2026-05-04T08:00:00Z';
      const serial = recordPlan(world.store, { job: id, body }, JSON.stringify(plan), null, false, at);
      await world.post(`/plans/${serial}/stowed`, { 'in.0': 'on' });
      return { serial, page: await world.text(`/plans/${serial}/moves`) };
    };
    const { marks } = effectOf(drawn, [...weightsByVoid(job, plan).values()].flat());
    if (marks.kind !== 'answer') throw new Error(marks.why);
    const whole = await wantedOf({});
    expect(Number(fieldOf(whole.page, 'wantForward'))).toBeCloseTo(0.86 + marks.forward.likely / 100, 3);
    expect(Number(fieldOf(whole.page, 'wantAft'))).toBeCloseTo(1.12 + marks.aft.likely / 100, 3);
    expect(whole.page).toContain('as the whole plan is foretold to bring it');
    const asked = await wantedOf({ aims: { ...job.aims, effect: { down: { forward: 3, aft: -1 } } } });
    expect([fieldOf(asked.page, 'wantForward'), fieldOf(asked.page, 'wantAft')]).toEqual(['0.89', '1.11']);
    expect(asked.page.match(/as the job wants it/g)).toHaveLength(2);
    const typed = { wantForward: '0.9', wantAft: '', list: '2 to port' };
    const other = await world.text(`/plans/${asked.serial}/moves?${new URLSearchParams(typed)}`);
    expect(other).toContain('empty: as it is now');
    expect(other).not.toContain('as the job wants it');
    const done = await post(wayOf(other), typed);
    expect(done.headers.get('location')).toBe(`/plans/${asked.serial}/moves?done=1&wantForward=0.9&wantAft=`);
  });

  test('come after what is still to be stowed by the plan, and what that brings her to', async () => {
    const { path } = await stowed('0');
    expect(await world.text(`${path}/moves`)).not.toContain('Go on stowing');
    const port = plan.bundles.flatMap((one, n) => (/V[13]/.test(one.void) ? [[`in.${n}`, 'on']] : []));
    const serial = recordPlan(
      world.store,
      { job: 1, body: JSON.stringify(job) },
      JSON.stringify(plan),
      null,
      false,
      '2026-05-04T09:00:00Z',
    );
    await world.post(`/plans/${serial}/stowed`, Object.fromEntries(port));
    const weights = [...weightsByVoid(job, { ...plan, bundles: plan.bundles.filter((one) => /V[13]/.test(one.void)) })];
    const { stability } = effectOf(
      vessel,
      weights.flatMap(([, own]) => own),
    );
    if (stability.kind !== 'answer') throw new Error(stability.why);
    const list = `${Math.abs(stability.list.likely)} to port`;
    const page = await world.text(
      `/plans/${serial}/moves?${new URLSearchParams({ list, forward: '0.9', aft: '1.1' })}`,
    );
    // Voids of both sides are alike: with all of it in she is upright.
    expect(page).toMatch(
      /Go on stowing by the plan first:<\/strong> 8 bundles are still to go in \(V2-01 to V2-04, V4-01 to V4-04; 24 kg\)\. Going on brings her to 0\.\d+ m forward, 1\.\d+ m aft, without list\./,
    );
    expect(page.indexOf('Go on stowing')).toBeLessThan(page.indexOf('The nearest'));
  });

  test('what goes ashore or in is written as such, and its place stays', async () => {
    const { path, serial } = await stowed('0', pairOf(2));
    const wanted = { list: '0', forward: '0.9', aft: '1.1', wantForward: '0.88', wantAft: '1.08' };
    const page = await world.text(`${path}/moves?${new URLSearchParams(wanted)}`);
    const lifted = [.../<ol class="outs">([\s\S]*?)<\/ol>/.exec(page)![1]!.matchAll(/Lift (V\d-\d\d)/g)].map(
      ([, mark]) => mark!,
    );
    expect(lifted.length).toBeGreaterThan(0);
    await post(wayOf(page), wanted);
    const entries = world.store.records.of(serial).filter(({ what }) => what !== 'in');
    expect(entries.map(({ bundle, what }) => `${bundle} ${what}`)).toEqual(
      lifted.flatMap((mark) => [`${mark} out`, `${mark} ashore`]),
    );
    // She was read before that.
    const then = await world.text(`${path}/moves`);
    expect(then).toMatch(/By the record (1 bundle|2 bundles) went in or came out since she was read as no\. 1/);
    // What tells of the whole plan says that they are not in.
    const [told] = lifted;
    expect(await world.text(path)).toMatch(new RegExp(`Left ashore:</strong> ${told}`));
    for (const name of ['balance', 'stowage']) {
      const paper = await world.get(`${path}/papers/${name}.pdf`);
      expect(textOf(await readPdf(new Uint8Array(await paper.arrayBuffer()))).replace(/\s+/g, ' ')).toContain(
        `Lifted out, or left ashore, by the record: ${told}`,
      );
    }
    // Until she is read again nothing is proposed.
    expect(then).toContain('Read her again first');
    expect(then).not.toContain('It is done: write it down');
    const more = { ...wanted, forward: '0.901', wantForward: '0.92', wantAft: '1.12' };
    const back = await world.text(`${path}/moves?${new URLSearchParams(more)}`);
    expect(back).toMatch(new RegExp(`Put (${lifted.join('|')}) \\(3 kg\\) in where it was planned`));
    await post(wayOf(back), more);
    expect(await world.text(`${path}/stowed`)).not.toContain('left ashore after the trial');
  });

  test('without figures of her it says what is lacking, and without a record what to tick', async () => {
    const { serial } = await bringPlanned(world, { ...job, vessel: { displacement: 900 } }, plan);
    const page = await world.text(`/plans/${serial}/moves?list=2+to+port`);
    expect(page).toContain('Her list is not counted:');
    expect(page).toContain('By the record nothing of this plan is in her');
    await world.post(`/plans/${serial}/stowed`, { 'in.0': 'on' });
    expect(await world.text(`/plans/${serial}/moves?list=2+to+port`)).not.toContain('It is done');
  });
});
