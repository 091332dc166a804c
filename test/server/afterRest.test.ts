/** Once the rest of a plan is planned anew: what still acts by the plan before, and what the plan of the rest is told of it. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { localTime } from '../../server/localTime.ts';
import { LIMITS } from '../../server/planning/planning.ts';
import { recordPlan } from '../../server/planning/record.ts';
import { effectOf } from '../../src/balance/float.ts';
import { weightsByVoid } from '../../src/balance/moments.ts';
import { sentenceOf } from '../../src/balance/telling.ts';
import { stowedWeights } from '../../src/balance/trial.ts';
import { vessel } from '../balance/knownVessel.ts';
import { bringPlanned } from './keepPlan.ts';
import { readPdf, textOf } from './paper/readPdf.ts';
import { stackedPair } from './paper/stackedPlan.ts';
import { openWorld, type World } from './world.ts';

let world: World;
let now: number;
beforeEach(async () => {
  now = Date.parse('2026-05-04T09:00:00Z');
  world = await openWorld(LIMITS, undefined, () => new Date(now));
});
afterEach(() => world.close());

const pair = stackedPair({ voids: 4, runs: 2, tiers: 2, across: 2 });
const { plan } = pair;
const job = { ...pair.job, vessel };
const MADE = '2026-05-04T08:00:00Z';
const indexOf = (mark: string) => plan.bundles.findIndex(({ bundle }) => bundle === mark);
const tick = (serial: number, ...marks: string[]) =>
  world.post(`/plans/${serial}/stowed`, Object.fromEntries(marks.map((mark) => [`in.${indexOf(mark)}`, 'on'])));
const inVoids = (names: RegExp) => plan.bundles.filter((own) => names.test(own.void)).map(({ bundle }) => bundle);
/** Down by the stern, where the voids are: more has to go in. */
const DEEPER = `moves?${new URLSearchParams({ list: '0', forward: '0.9', aft: '1.1', wantForward: '0.893', wantAft: '1.109' })}`;

/** A plan of which V1 and V2 are in. */
async function stowed(): Promise<number> {
  const { serial } = await bringPlanned(world, job, plan);
  await tick(serial, ...inVoids(/V[12]/));
  return serial;
}

/** Its rest once these voids of it are in, and the serial of the plan of that, with what it has in the others. */
async function rested(serial: number, done = ['V1', 'V2']): Promise<number> {
  const ticked = Object.fromEntries(
    done.map((name) => [`stowed.${plan.voids.findIndex((v) => v.void === name)}`, 'on']),
  );
  const made = await world.post(`/plans/${serial}/left`, { cut: 'all', ...ticked });
  const id = Number(/\/jobs\/(\d+)/.exec(made.headers.get('location')!)![1]);
  const bundles = plan.bundles.filter((own) => !done.includes(own.void));
  const text = JSON.stringify({ ...plan, seed: 9, bundles });
  return recordPlan(world.store, { job: id, body: world.store.jobs.body(id)! }, text, null, false, MADE);
}

describe('once the rest of a plan is planned anew', () => {
  test('every page of the plan that acts says so', async () => {
    const serial = await stowed();
    const pages = ['', '/stowed', '/weighed', '/survey', '/read', '/moves', '/trial', '/first-cuts', '/tags'];
    const said = async () => {
      const texts = await Promise.all(pages.map((page) => world.text(`/plans/${serial}${page}`)));
      return pages.filter((_, n) => texts[n]!.includes('is planned anew in <a href="/jobs/'));
    };
    expect(await said()).toEqual([]);
    await rested(serial);
    expect(await said()).toEqual(pages);
    const cuts = await world.text(`/plans/${serial}/first-cuts`);
    expect(cuts).toMatch(/goes into the job of plan \d+ alone[\s\S]*put it in there as well/);
  });

  test('moves that put in what no longer holds are not proposed, and a page from before writes none down', async () => {
    const serial = await stowed();
    const before = await world.text(`/plans/${serial}/${DEEPER}`);
    expect(before).toMatch(/Put V[34]-0\d \(3 kg\) in where it was planned/);
    expect(before).toMatch(/Go on stowing[^(]*\(V3-01/);
    const way = [...before.matchAll(/Put V[34][\s\S]*?formaction="([^"]*)">It is done/g)][0]![1]!;
    await rested(serial);
    expect(await world.text(`/plans/${serial}/${DEEPER}`)).not.toMatch(/Put V[34]-0\d|Go on stowing/);
    const wants = new URLSearchParams(DEEPER.slice('moves?'.length));
    const late = await world.get(way.replaceAll('&amp;', '&'), { method: 'POST', body: wants });
    expect(late.url + (late.headers.get('location') ?? '')).toContain('stale=1');
    expect(world.store.records.of(serial).map(({ bundle }) => bundle)).toEqual(inVoids(/V[12]/));
    // What is in still moves: up by the stern, it goes ashore.
    const higher = await world.text(`/plans/${serial}/${DEEPER.replace('0.893', '0.907').replace('1.109', '1.091')}`);
    expect(higher).toMatch(/Lift V[12]-0\d \(3 kg\) out of/);
  });

  test('a plan made again of the whole job says so beside it, and its own pages lead to the record of the other', async () => {
    const serial = await stowed();
    await rested(serial);
    const of = { job: world.store.plans.find(serial)!.job, body: JSON.stringify(job) };
    const newer = recordPlan(world.store, of, JSON.stringify({ ...plan, seed: 8 }), null, false, MADE);
    expect(await world.text(`/plans/${serial}/moves`)).toContain(
      `/plans/${newer}">Plan ${newer}</a> of this job is newer: tags of plan ${serial} hold only as said next`,
    );
    for (const page of ['stowed', 'survey', 'moves', 'trial'])
      expect(await world.text(`/plans/${newer}/${page}`), page).toMatch(/Steel may lie by another plan/);
  });

  test('the trial of the plan places only what still holds', async () => {
    const serial = await stowed();
    const read = {
      share: '50',
      beforeForward: '0.8',
      beforeAft: '1',
      afterForward: '0.75',
      afterAft: '1.07',
      wantForward: '-12',
      wantAft: '14',
    };
    const address = `/plans/${serial}/trial?${new URLSearchParams(read)}`;
    const placed = async () =>
      [
        ...new Set([...(await world.text(address)).matchAll(/<strong>(V\d)-0\d<\/strong>/g)].map(([, name]) => name)),
      ].sort();
    expect(await placed()).toEqual(['V1', 'V2', 'V3', 'V4']);
    const next = await rested(serial);
    expect(await placed()).toEqual(['V1', 'V2']);
    expect(await world.text(address)).toContain(`href="/plans/${next}/trial"`);
  });

  test('a void ticked as a whole is what still holds of it, and one ticked by itself is kept and told as counted twice', async () => {
    const serial = await stowed();
    const next = await rested(serial);
    const v3 = plan.voids.findIndex((told) => told.void === 'V3');
    await world.post(`/plans/${serial}/stowed`, { whole: String(v3) });
    expect(world.store.records.of(serial).map(({ bundle }) => bundle)).toEqual(inVoids(/V[12]/));
    const stowedPage = await world.text(`/plans/${serial}/stowed`);
    expect(stowedPage.match(/planned anew: it does not go in by this plan/g)).toHaveLength(inVoids(/V[34]/).length);
    for (const page of ['', '/moves', '/trial', '/read', '/stowed'])
      expect(await world.text(`/plans/${next}${page}`)).not.toContain('counted twice');
    await tick(serial, 'V3-02');
    for (const page of ['', '/moves', '/trial', '/read', '/stowed', '/weighed'])
      expect(await world.text(`/plans/${next}${page}`)).toContain(
        `In her by the record of <a href="/plans/${serial}/stowed">plan ${serial}</a>, and this plan counts them as not in: V3-02.`,
      );
    expect(await world.text(`/plans/${serial}/stowed`)).toContain(
      'In her by the record of this plan, and the job of what is left counts them as not in: V3-02.',
    );
    expect(await world.text(`/plans/${serial}/stowed`)).toContain('bundles that are in still hold, without V3-02.');
    expect(await register(next)).toContain(`NO LONGER TRUE: in her by the record of plan ${serial}`);
    // Taken away again it is as it was.
    const kept = Object.fromEntries(inVoids(/V[12]/).map((mark) => [`in.${indexOf(mark)}`, 'on']));
    await world.post(`/plans/${serial}/stowed`, { ...kept, [`was.${indexOf('V3-02')}`]: 'on' });
    expect(await world.text(`/plans/${next}`)).not.toContain('counted twice');
  });

  test('what was lifted out, left ashore or moved by the plan before is told on the plan of the rest, until it is back', async () => {
    const serial = await stowed();
    const own = plan.bundles.find(({ bundle }) => bundle === 'V1-04')!;
    const { void: name, run, tier, order, at } = own;
    const place = { void: name, run, tier, order, at };
    const aside = { ...place, run: 2 };
    // Moved before the job of the rest was made, it counts where it lies.
    world.store.moved.add(serial, [{ bundle: 'V1-04', to: aside }], [], MADE);
    const next = await rested(serial);
    const page = () => world.text(`/plans/${next}/stowed`);
    expect(await page()).not.toContain('since the job of what is left was made');
    world.store.moved.add(serial, [{ bundle: 'V1-04', to: place }], [], MADE);
    expect(await page()).toContain('since the job of what is left was made: V1-04.');
    world.store.moved.add(serial, [{ bundle: 'V1-04', to: aside }], [], MADE);
    expect(await page()).not.toContain('since the job of what is left was made');
    world.store.records.add(serial, [
      { bundle: 'V1-01', what: 'out', note: '', at: MADE },
      { bundle: 'V2-03', what: 'out', note: '', at: MADE },
      { bundle: 'V2-03', what: 'ashore', note: '', at: MADE },
    ]);
    expect(await page()).toContain(', and this plan counts them as in: V1-01, V2-03.');
    world.store.records.add(serial, [
      { bundle: 'V1-01', what: 'in', note: '', at: MADE },
      { bundle: 'V2-03', what: 'undone', note: '', at: MADE },
      { bundle: 'V2-03', what: 'in', note: '', at: MADE },
    ]);
    expect(await page()).not.toContain('counts them as in');
  });
});

describe('what is in her by two plans', () => {
  /** Of a plan's page: how she floats with what is in. */
  const floats = async (serial: number, page: 'stowed' | 'survey') =>
    /<p>((?:Down|Up|Floats)[^<]*)<span class="quiet">That is with what is in/.exec(
      await world.text(`/plans/${serial}/${page}`),
    )?.[1];
  const floatsWith = (...marks: string[]) => {
    const bundles = plan.bundles.filter(({ bundle }) => marks.includes(bundle));
    return sentenceOf(effectOf(vessel, [...weightsByVoid(job, { ...plan, bundles }).values()].flat()));
  };
  const survey = (serial: number, what: string, marks: string[]) =>
    world.post(`/plans/${serial}/survey`, {
      do: what,
      on: '2026-05-04',
      entries: String(world.store.records.of(serial).length),
      ...Object.fromEntries(marks.map((mark) => [`pick.${indexOf(mark)}`, 'on'])),
    });

  test('is told alike by both, also once some of the first is out, and the breaking-out sheet names the rest', async () => {
    const serial = await stowed();
    const next = await rested(serial);
    const inV3 = plan.bundles.filter((own) => own.void === 'V3').map(({ bundle }) => bundle);
    const later = plan.bundles.filter((own) => !/V[12]/.test(own.void));
    const nth = (mark: string) => later.findIndex(({ bundle }) => bundle === mark);
    await world.post(`/plans/${next}/stowed`, Object.fromEntries(inV3.map((mark) => [`in.${nth(mark)}`, 'on'])));
    const all = floatsWith(...inVoids(/V[12]/), ...inV3);
    for (const plans of [serial, next]) expect((await floats(plans, 'stowed'))?.trim()).toBe(all);
    expect(await world.text(`/plans/${serial}/stowed`)).toMatch(
      new RegExp(`by <a href="/plans/${next}/stowed">plan ${next}</a> 24 kg in V3`),
    );
    expect(await world.text(`/plans/${serial}/survey`)).toMatch(/Not among these: 24 kg in V3, in by/);
    expect(await paperOf(next, 'breaking-out')).toMatch(
      /In her beside these, and not on this sheet: 48 kg in V1, V2\./,
    );

    // A mark that the one does not have is found in the other.
    const find = async (of: number, mark: string) =>
      (await world.get(`/plans/${of}/find?mark=${mark}`)).headers.get('location') ?? '';
    expect(await find(next, 'v1-01')).toBe(`/b/${serial}/V1-01`);
    expect(await find(next, 'V9-01')).toContain('lacks=V9-01#find');
    world.store.jobs.setDeleted(world.store.plans.find(serial)!.job, MADE);
    expect(await find(next, 'v1-01')).toContain('lacks=v1-01#find');
    world.store.jobs.setDeleted(world.store.plans.find(serial)!.job, null);

    await survey(serial, 'out', inVoids(/V2/));
    const left = floatsWith(...inVoids(/V1/), ...inV3);
    for (const plans of [serial, next]) expect((await floats(plans, 'survey'))?.trim()).toBe(left);
    expect(await world.text(`/plans/${next}/stowed`)).toContain('24 kg now, where the plan counts 48 kg');
  });
});

describe('what was read before the rest was made', () => {
  /** Fields of a reading as foretold with so many bundles of each void in her; `more` is how much deeper she was read, m. */
  function foretold(counts: Record<string, number>, more = 0): { forward: string; aft: string } {
    const { marks } = effectOf(vessel, stowedWeights(job, plan, new Map(Object.entries(counts))));
    if (marks.kind !== 'answer') throw new Error(marks.why);
    const at = (empty: number, cm: number) => (empty + cm / 100 + more).toFixed(4);
    return { forward: at(0.9, marks.forward.likely), aft: at(1.1, marks.aft.likely) };
  }
  /** Some time after what was done before, and some time before what comes. */
  async function read(serial: number, fields: Record<string, string>): Promise<Response> {
    now += 600_000;
    const [on, at] = [localTime(new Date(now)).slice(0, 10), localTime(new Date(now)).slice(11, 16)];
    const answer = await world.post(`/plans/${serial}/read`, { do: 'keep', on, at, who: 'Ada', ...fields });
    now += 600_000;
    return answer;
  }
  /** The first four of V3 and of V4 go in by the plan of the rest. */
  const tickFirst = (next: number) =>
    world.post(`/plans/${next}/stowed`, Object.fromEntries([0, 1, 2, 3, 8, 9, 10, 11].map((n) => [`in.${n}`, 'on'])));
  const HALF = { V1: 8, V2: 8, V3: 4, V4: 4 };

  /** Read empty, and once more with V1 and V2 in where that is asked for; then the rest made of it. */
  async function readAndRested(isLaden: boolean): Promise<{ serial: number; next: number }> {
    const body = JSON.stringify(job);
    const id = Number((await world.bring(body)).split('/').at(-1));
    const serial = recordPlan(world.store, { job: id, body }, JSON.stringify(plan), null, false, MADE);
    await read(serial, { ...foretold({}), list: '0' });
    await tick(serial, ...inVoids(/V[12]/));
    if (isLaden) await read(serial, { ...foretold({ V1: 8, V2: 8 }) });
    return { serial, next: await rested(serial) };
  }

  test('stands on page and register of the rest as of the job before, and is corrected there', async () => {
    const { serial, next } = await readAndRested(true);
    const page = await world.text(`/plans/${next}/read`);
    expect(page).toContain('Before, with the job that this is left of');
    for (const number of [1, 2])
      expect(page).toContain(`<a href="/plans/${serial}/read#reading-${number}">no. ${number} of plan ${serial}</a>`);
    expect(page).toContain(
      'Nothing was written down with this job yet: what was read before it stands above, and counts.',
    );
    expect(page).not.toContain('?correct=');
    expect((await world.get(`/plans/${next}/read?correct=1`)).status).toBe(200);
    expect(await world.text(`/plans/${next}/read?correct=1`)).not.toContain('Keep the correction');
    expect((await read(next, { number: '1', ...foretold({}) })).status).toBe(404);
    expect(await register(next)).toContain(`Read afloat before, written with plan ${serial}`);
    expect(await register(serial)).not.toContain('Read afloat before');
    expect(await world.text(`/plans/${next}/moves`)).toContain(
      `With <a href="/plans/${serial}/read#reading-2">plan ${serial}</a>, before anything of this one was in, no. 2 was read`,
    );
  });

  test.each([false, true])(
    'is what later readings are reckoned from, and nothing counts twice; laden %s',
    async (isLaden) => {
      const { serial, next } = await readAndRested(isLaden);
      await tickFirst(next);
      await read(next, { ...foretold(HALF), list: '0' });
      const page = await world.text(`/plans/${next}/read`);
      expect(page).not.toContain('otherwise than reckoned');
      const last = isLaden ? 2 : 1;
      expect(page).toContain(`Since no. ${last} of plan ${serial}: `);
      // The trial begins from it, and all that went in since is compared.
      const trial = await world.text(`/plans/${next}/trial?share=50`);
      expect(trial).toContain(`as read on ${localTime(new Date(now)).slice(0, 10)}, no. ${last} of plan ${serial}`);
      expect(trial).toContain('The fore end went down as forecast.');
      expect(trial).toContain('The after end went down as forecast.');
      expect(trial).not.toContain('otherwise than reckoned');
      expect(trial).toContain(
        isLaden ? 'they were in her, too, when she was read before' : '48 kg of them came in since she was read before',
      );
      // Read deeper than that, it is told what it was reckoned from.
      await read(next, { ...foretold(HALF, 0.05), list: '0' });
      const deeper = await world.text(`/plans/${next}/read`);
      expect(deeper).toContain('5.0 cm deeper');
      expect(deeper).toContain(`her draughts of no. ${last} of plan ${serial}`);
      expect(await register(next)).toContain(`her draughts of no. ${last} of plan ${serial}`);
      const doubted = await world.text(`/plans/${next}/trial?share=50`);
      expect(doubted).toContain('Read otherwise than reckoned');
      expect(doubted).toContain(`her draughts of no. ${last} of plan ${serial}`);
      expect(doubted).toContain('5.0 cm deeper');
    },
  );

  test.each([false, true])('is where the marks that are wanted are counted from; laden %s', async (isLaden) => {
    const { next } = await readAndRested(isLaden);
    const page = await world.text(`/plans/${next}/moves`);
    const whole = foretold({ V1: 8, V2: 8, V3: 8, V4: 8 });
    for (const [name, draught] of [
      ['wantForward', whole.forward],
      ['wantAft', whole.aft],
    ] as const)
      expect(Number(new RegExp(`name="${name}" value="([^"]*)"`).exec(page)?.[1])).toBeCloseTo(Number(draught), 3);
  });

  test('marks typed on the trial, after or before, are held against what was in her then', async () => {
    const { serial, next } = await readAndRested(false);
    await tickFirst(next);
    const [empty, half, deeper] = [foretold({}), foretold(HALF), foretold(HALF, 0.05)];
    const trialOf = (before: typeof empty, after: typeof empty) =>
      world.text(
        `/plans/${next}/trial?${new URLSearchParams({
          share: '50',
          beforeForward: before.forward,
          beforeAft: before.aft,
          afterForward: after.forward,
          afterAft: after.aft,
        })}`,
      );
    // As they were read with the job before: what came into the voids since counts with what is typed after.
    expect(await trialOf(empty, half)).not.toContain('otherwise than reckoned');
    expect(await trialOf(empty, deeper)).toContain(`her draughts of no. 1 of plan ${serial}`);
    // Typed anew, she was read with what lies in the voids in her.
    const laden = foretold({ V1: 8, V2: 8 });
    expect(await trialOf(laden, half)).not.toContain('otherwise than reckoned');
    expect(await trialOf(laden, deeper)).toContain('her draughts as typed');
  });

  test('a list read with the job before counts what lay in the voids then', async () => {
    const body = JSON.stringify(job);
    const id = Number((await world.bring(body)).split('/').at(-1));
    const serial = recordPlan(world.store, { job: id, body }, JSON.stringify(plan), null, false, MADE);
    await read(serial, { ...foretold({}), list: '0' });
    await tick(serial, ...inVoids(/V1/));
    const next = await rested(serial, ['V1']);
    const v2 = inVoids(/V[2-4]/).indexOf('V2-01');
    await world.post(`/plans/${next}/stowed`, { [`in.${v2}`]: 'on' });
    const { stability } = effectOf(vessel, stowedWeights(job, plan, new Map(Object.entries({ V1: 8, V2: 1 }))));
    if (stability.kind !== 'answer') throw new Error(stability.why);
    expect(stability.list.likely).toBeLessThan(-1.1);
    const list = (more: number) => `${Math.abs(stability.list.likely - more).toFixed(2)} to port`;
    await read(next, { list: list(0) });
    expect(await world.text(`/plans/${next}/read`)).not.toContain('otherwise than reckoned');
    await read(next, { list: list(2) });
    const page = await world.text(`/plans/${next}/read`);
    expect(page).toContain('2.0° farther to port');
    expect(page).toContain(`her list of no. 1 of plan ${serial}`);
  });

  test('what is written with the job before once the rest is made is shown, and nothing is reckoned from it', async () => {
    const { serial, next } = await readAndRested(false);
    await read(serial, { ...foretold(HALF) });
    const page = await world.text(`/plans/${next}/read`);
    expect(page).toContain(`no. 2 of plan ${serial}`);
    expect(page.match(/It was written after the job of this plan was made/g)).toHaveLength(1);
    expect(await world.text(`/plans/${next}/trial`)).toContain(`no. 1 of plan ${serial}`);
    expect(await world.text(`/plans/${next}/trial`)).not.toContain(`no. 2 of plan ${serial}`);
  });
});

test('of two plans of what was left of one the older leads to the newer', async () => {
  const serial = await stowed();
  const first = await rested(serial);
  expect(await world.text(`/plans/${first}/stowed`)).not.toContain('a newer job');
  const second = await rested(serial);
  const { job: newer } = world.store.plans.find(second)!;
  expect(await world.text(`/plans/${first}/stowed`)).toContain(`<a href="/jobs/${newer}">a newer job</a>, too.`);
  expect(await world.text(`/plans/${second}/stowed`)).not.toContain('a newer job');
});

const register = (serial: number): Promise<string> => paperOf(serial, 'ballast-register');

async function paperOf(serial: number, name: string): Promise<string> {
  const paper = await world.get(`/plans/${serial}/papers/${name}.pdf`);
  return textOf(await readPdf(new Uint8Array(await paper.arrayBuffer()))).replaceAll(/\s+/g, ' ');
}
