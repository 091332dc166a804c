/** A plan under way: what is left of it as a job of its own, and downloads broken off. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { setUnits, unitsOf } from '../../server/routes/request.ts';
import type { JobInput } from '../../src/job/job.ts';
import { type CutSoFar, pileLeft } from '../../src/plan/pileLeft.ts';
import { markRanges, stopsOf } from '../../src/plan/stops.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { readPdf, textOf } from './paper/readPdf.ts';
import { openWorld, type World } from './world.ts';

let world: World;

beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

test('whoever leaves before a paper is all there leaves no defect in the log', async () => {
  const { serial } = await planned();
  const before = world.log.length;
  const answer = await world.get(`/plans/${serial}/papers.zip`);
  await answer.body!.cancel();
  for (let i = 0; i < 100 && world.log.length === before; i++) await new Promise((resolve) => setTimeout(resolve, 10));
  expect(world.log.slice(before).filter(({ what }) => what === 'defect')).toEqual([]);
});

test('what is left once a void is stowed becomes a job of its own', async () => {
  const { id, serial } = await planned();
  expect(await world.text(`/plans/${serial}`)).toContain(`/plans/${serial}/left`);
  expect(await world.text(`/plans/${serial}/left`)).toContain('hold-down is not taken along: for the rest enter only');
  expect(await world.text(`/plans/${serial}/left`)).toContain(
    'Take the tags off every bundle that is tied and does not stay',
  );
  const none = await world.post(`/plans/${serial}/left`, { cut: 'stowed' });
  expect(none.status).toBe(422);
  const refused = await none.text();
  expect(refused).toContain('No job was made');
  expect(refused).toContain('value="stowed" required checked');
  const made = await world.post(`/plans/${serial}/left`, { cut: 'all', 'stowed.0': 'on' });
  expect(made.status).toBe(303);
  const place = made.headers.get('location')!;
  expect(place).not.toContain(`/jobs/${id}?`);
  const page = await world.text(place);
  expect(page).toContain('This is what is left of the work');
  expect(page).toContain('stowed already');
  expect(page).toContain('A cut');
});

test('that pieces cut before may be cut again is told before the rest is made, and how many are by its plan', async () => {
  const { serial } = await planned();
  expect(await world.text(`/plans/${serial}/left`)).toContain('how many are cut again and what of them is scrap.</p>');
  expect(await world.text(`/plans/${serial}`)).not.toContain('cut before');
  // The bars of lot A as if they were pieces that a plan before had cut.
  const again = await planned((text) => text.replaceAll('"lot":"A"', '"lot":"A cut"'));
  expect(await world.text(`/plans/${again.serial}`)).toMatch(
    /<p>Of 6 pieces cut before, 0 are tied as long as cut, 4 are cut again \([\d.]+.kg of it scrap\) and 2 are not used\.<\/p>/,
  );
});

/** A job in the store, and the serial of its plan, each with its text as it is `made` of that of the trial. */
async function planned(made = (text: string) => text): Promise<{ id: number; serial: number }> {
  const body = made(JSON.stringify(trialJobInput()));
  const id = Number((await world.bring(body)).split('/').at(-1));
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, body);
  world.children.at(-1)!.say({ kind: 'plan', plan: made(JSON.stringify(trialPair().plan)) });
  return { id, serial: world.store.plannings.latest(id)!.plan! };
}

describe('the page of what is left', () => {
  /** The job that it makes of these answers, or the page that refuses them. */
  async function answer(serial: number, fields: Record<string, string>) {
    const response = await world.post(`/plans/${serial}/left`, fields);
    const place = response.headers.get('location');
    if (place === null) return { page: await response.text(), job: null };
    const id = Number(/\/jobs\/(\d+)/.exec(place)![1]);
    return { page: await world.text(place), job: JSON.parse(world.store.jobs.body(id)!) as JobInput };
  }

  test('asks how far the saw has come, and makes no job before that is said', async () => {
    const { serial } = await planned();
    expect(await world.text(`/plans/${serial}/left`)).not.toMatch(/name="cut"[^>]* checked/);
    const { page, job } = await answer(serial, { 'stowed.0': 'on' });
    expect(job).toBeNull();
    expect(page).toContain('how far the saw has come.');
    expect(page).toContain('name="stowed.0" checked');
  });

  test('takes the stops that are done, bars of the next and a bar that is shorter, before anything is stowed', async () => {
    const { serial } = await planned();
    const { plan, job: stated } = trialPair();
    const [first, second] = stopsOf(stated, plan);
    const ofSecond = second!.bars[0]!;
    const short = plan.bars.find(({ bar }) => bar === first!.bars[0])!;
    const fields = {
      cut: 'stops',
      stop: String(first!.length),
      next: ofSecond,
      found: `${short.bar.toLowerCase()}: ${(short.length - 120) / 1000} m`,
    };
    const { job } = await answer(serial, fields);
    const cut: CutSoFar = { by: 'stops', stop: first!.length, next: new Set([ofSecond]) };
    const found = new Map([[short.bar, short.length - 120]]);
    expect(job!.pile).toEqual(
      JSON.parse(JSON.stringify(pileLeft(stated, plan, new Set(), { by: `plan ${serial}`, cut, found }))),
    );
    expect(job!.pile.map(({ lot }) => lot)).toContain(`${short.lot} begun`);
    const none = await answer(serial, { cut: 'stops', stop: '' });
    expect(none.page).toContain('No job was made');
    expect(none.page).toContain('Something has to be cut');
  });

  test('takes along what was changed in the job since, unless it is told not to', async () => {
    const { id, serial } = await planned();
    expect(await world.text(`/plans/${serial}/left`)).not.toContain('Changed in the job since');
    const save = (job: unknown) =>
      world.store.jobs.save(
        id,
        world.store.jobs.find(id)!.revision,
        'changed',
        JSON.stringify(job),
        '2026-01-02T00:00:00Z',
      );
    const plain = trialJobInput();
    const pile = plain.pile.map((lot, n) => (n === 0 ? { ...lot, massPerMetre: 6.1 } : lot));
    save({ ...plain, saw: { ...plain.saw, kerf: 3.7 }, pile });
    const page = await world.text(`/plans/${serial}/left`);
    expect(page).toContain('2 changes');
    expect(page).toContain(`<th scope="row">Lot ${plain.pile[0]!.lot}, Weighed</th>`);
    expect(page).toMatch(
      /<th scope="row">Kerf<\/th><td data-label="as planned">[^<]*<\/td><td data-label="now">3.7<\/td>/,
    );
    const along = await answer(serial, { cut: 'all' });
    expect([along.job!.saw!.kerf, along.job!.pile[0]!.massPerMetre]).toEqual([3.7, 6.1]);
    const not = await answer(serial, { cut: 'all', since: 'not' });
    expect(not.job!.saw!.kerf).toBe(trialPair().job.saw.kerf);
    const again = await answer(serial, { since: 'not' });
    expect(again.page).toMatch(/value="not" checked/);
    save({ ...plain, saw: { kerf: -1 } });
    expect(await world.text(`/plans/${serial}/left`)).toContain('has 1 fault now. Mend that first');
    expect((await answer(serial, { cut: 'all' })).job!.saw!.kerf).toBe(trialPair().job.saw.kerf);
  });

  test('keeps a run that is tied, with its tags, where that is ticked', async () => {
    const { serial } = await planned();
    const { plan } = trialPair();
    const v2 = plan.voids.findIndex((told) => told.void === 'V2');
    const own = plan.bundles.filter((bundle) => bundle.void === 'V2');
    const field = `keep.${v2}.${own[0]!.run}`;
    expect(await world.text(`/plans/${serial}/left`)).toContain(`name="${field}"`);
    const refused = await answer(serial, { [field]: 'on' });
    expect(refused.page).toContain(`name="${field}" checked`);
    const { job } = await answer(serial, { cut: 'stowed', [field]: 'on' });
    const marks = own.map(({ bundle }) => bundle);
    expect(job!.voids.find((stated) => stated.void === 'V2')!.keepOut!.at(-1)!.what).toBe(
      `bundles of plan ${serial}, to be stowed: ${markRanges(marks).join(', ')}`,
    );
    expect([...world.store.rests.ofPlan(serial)!.stands].sort()).toEqual([...marks].sort());
    await world.post(`/plans/${serial}/stowed`, { [`in.${plan.bundles.indexOf(own[0]!)}`]: 'on' });
    expect(await world.text(`/plans/${serial}/left`)).not.toContain(`name="${field}"`);
  });

  test('takes bundles that are no use off the steel, and they stand by no plan; a mark that is none is told', async () => {
    const { serial } = await planned();
    const [own] = trialPair().plan.bundles;
    const index = trialPair().plan.voids.findIndex((told) => told.void === own!.void);
    const made = await world.post(`/plans/${serial}/left`, {
      cut: 'all',
      [`stowed.${index}`]: 'on',
      lost: own!.bundle,
    });
    expect(made.status).toBe(303);
    expect(world.store.rests.ofPlan(serial)!.stands.has(own!.bundle)).toBe(false);
    const { page } = await answer(serial, { cut: 'all', lost: 'Q-77' });
    expect(page).toMatch(/id="lost"[^>]*value="Q-77"/);
  });

  test('makes it in the units of the job', async () => {
    const { id, serial } = await planned();
    setUnits(world.store.settings, id, 'inches');
    const made = await world.post(`/plans/${serial}/left`, { cut: 'all' });
    const rest = Number(/\/jobs\/(\d+)/.exec(made.headers.get('location')!)![1]);
    expect(unitsOf(world.store.settings, rest)).toBe('inches');
  });

  test('keeps what was typed and tells what can not be read, where a bar is none of the plan or has no length', async () => {
    const { serial } = await planned();
    const { page } = await answer(serial, { cut: 'bars', bars: 'Q-7', found: 'A-01: long' });
    expect(page).toContain('The plan has no “Q-7”.');
    expect(page).toContain('value="Q-7"');
    expect(page).toContain('value="A-01: long"');
    expect(page).toContain('A-01: This is no number.');
    expect(page).toContain('value="bars" required checked');
    const hostile = await answer(serial, { cut: 'stops', stop: '1e9', next: '__proto__', 'begun.__proto__': 'left' });
    expect(hostile.job).toBeNull();
  });

  test('leads there from where a changed job is offered to be planned again', async () => {
    const { id, serial } = await planned();
    const changed = { ...trialJobInput(), aims: { ballast: 77 } };
    world.store.jobs.save(
      id,
      world.store.jobs.find(id)!.revision,
      'changed',
      JSON.stringify(changed),
      '2026-01-02T00:00:00Z',
    );
    for (const page of [`/plans/${serial}`, `/jobs/${id}`]) {
      const text = await world.text(page);
      expect(text).toContain(`<a href="/plans/${serial}/left">plan what is left</a>`);
      expect(text).toContain('every void as empty');
    }
  });
});

describe('once what was left is a job of its own', () => {
  /** The trial with the first run of V1 begun by one bundle, its rest made a job. */
  async function withRest() {
    const { id, serial } = await planned();
    const { plan } = trialPair();
    const first = plan.bundles.findIndex((bundle) => bundle.void === 'V1');
    await world.post(`/plans/${serial}/stowed`, { [`in.${first}`]: 'on' });
    const isIn = plan.bundles[first]!;
    const v1 = plan.voids.findIndex((told) => told.void === 'V1');
    const made = await world.post(`/plans/${serial}/left`, { cut: 'all', [`part.${v1}`]: 'on' });
    const rest = Number(/\/jobs\/(\d+)/.exec(made.headers.get('location')!)![1]);
    const stands = plan.bundles.filter((bundle) => bundle.void === 'V1' && bundle.run === isIn.run);
    const gone = plan.bundles.find((bundle) => !stands.includes(bundle))!;
    return { id, serial, rest, isIn, stands, gone };
  }

  /** The serial of a plan for a job of what is left: that of the trial, with its first void under the name that it has there. */
  function planFor(id: number): number {
    const { plan } = trialPair();
    const inRest = <Told extends { void: string }>(told: Told) =>
      told.void === 'V1' ? { ...told, void: 'V1 rest' } : told;
    const next = { ...plan, seed: 9, voids: plan.voids.map(inRest), bundles: plan.bundles.map(inRest) };
    world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, world.store.jobs.body(id)!);
    world.children.at(-1)!.say({ kind: 'plan', plan: JSON.stringify(next) });
    return world.store.plannings.latest(id)!.plan!;
  }

  test('the plan before and the job lead to each other, and its tags hold until the rest is planned', async () => {
    const { serial, rest, gone } = await withRest();
    expect(await world.text(`/jobs/${rest}`)).toContain(`What was left of <a href="/plans/${serial}">`);
    const page = await world.text(`/plans/${serial}`);
    expect(page).toContain(
      `What was left of this plan is <a href="/jobs/${rest}">a job of its own</a>, not planned yet.`,
    );
    expect(await world.text(`/b/${serial}/${gone.bundle}`)).not.toContain('This tag no longer holds');
  });

  test('once it is planned, tags of what is planned anew say that they no longer hold, and only what finishes a run is next in', async () => {
    const { serial, rest, isIn, stands, gone } = await withRest();
    const next = planFor(rest);
    for (const page of [`/plans/${serial}`, `/plans/${serial}/stowed`, `/plans/${serial}/survey`])
      expect(await world.text(page)).toContain(`is planned anew in <a href="/jobs/${rest}">a job of its own</a>`);
    expect(await world.text(`/b/${serial}/${gone.bundle}`)).toContain('This tag no longer holds');
    expect(await world.text(`/b/${serial}/${isIn.bundle}`)).not.toContain('This tag no longer holds');
    const stowed = await world.text(`/plans/${serial}/stowed`);
    const nextIn = stowed.slice(stowed.indexOf('data-answer="next"'), stowed.indexOf('data-answer="voids"'));
    const lacking = stands.filter((one) => one !== isIn).map(({ bundle }) => bundle);
    const told = trialPair()
      .plan.bundles.map(({ bundle }) => bundle)
      .filter((bundle) => nextIn.includes(`/${bundle}"`));
    expect(told.filter((bundle) => !lacking.includes(bundle))).toEqual([]);
    expect(told).toHaveLength(Math.min(3, lacking.length));
    for (const page of ['stowed', 'survey'])
      expect(await world.text(`/plans/${next}/${page}`)).toMatch(
        /beside this plan [\d.]+ kg now, where the plan counts [\d.]+ kg, in /,
      );
    expect(lacking.length).toBeGreaterThan(0);
    for (const page of [`/plans/${next}`, `/plans/${next}/survey`]) {
      const text = await world.text(page);
      expect(text).toContain(`This is a plan of what was left of <a href="/plans/${serial}">`);
      expect(text).toContain(`href="/plans/${serial}/survey"`);
    }
    const register = async (of: number) => {
      const paper = await world.get(`/plans/${of}/papers/ballast-register.pdf`);
      return textOf(await readPdf(new Uint8Array(await paper.arrayBuffer()))).replaceAll(/\s+/g, ' ');
    };
    const marks = stands.map(({ bundle }) => bundle);
    expect(await register(serial)).toContain(`of this plan only ${markRanges(marks).join(', ')} stay or go in.`);
    expect(await register(next)).toContain('what lies in her by that plan is in the record of that plan');
  });

  test('a plan of the rest of that tells of every plan before it, and what still goes in by them first', async () => {
    const { serial, rest, isIn, stands } = await withRest();
    const next = planFor(rest);
    const { plan } = trialPair();
    const v2 = plan.voids.findIndex((told) => told.void === 'V2');
    const inV2 = plan.bundles.filter((bundle) => bundle.void === 'V2');
    const made = await world.post(`/plans/${next}/left`, { cut: 'all', [`keep.${v2}.${inV2[0]!.run}`]: 'on' });
    const last = planFor(Number(/\/jobs\/(\d+)/.exec(made.headers.get('location')!)![1]));
    const lacking = (own: typeof stands) => markRanges(own.map(({ bundle }) => bundle)).join(', ');
    const text = await world.text(`/plans/${last}`);
    expect(text).toContain(`This is a plan of what was left of <a href="/plans/${next}">`);
    expect(text).toContain(`That was left of <a href="/plans/${serial}">plan ${serial}</a>`);
    const told = (of: number, own: typeof stands) =>
      `By <a href="/plans/${of}/stowed">plan ${of}</a> go in before anything of this one: ${lacking(own)}.`;
    expect(text).toContain(told(next, inV2));
    expect(text).toContain(
      told(
        serial,
        stands.filter((one) => one !== isIn),
      ),
    );
    const left = await world.text(`/plans/${last}/left`);
    expect(left).toContain(`plan ${next}</a> ${lacking(inV2)} still go in,`);
    const paper = async (name: string) => {
      const file = await world.get(`/plans/${last}/papers/${name}.pdf`);
      return textOf(await readPdf(new Uint8Array(await file.arrayBuffer()))).replaceAll(/\s+/g, ' ');
    };
    const first = `By plan ${next} go in before anything of this one: ${lacking(inV2)}.`;
    expect(await paper('stowage')).toContain(first);
    const register = await paper('ballast-register');
    expect(register).toContain(first);
    expect(register).toContain(
      `what was left of plan ${next}, that of plan ${serial}: what lies in her by those plans`,
    );
    await world.post(`/plans/${next}/stowed`, {
      ...Object.fromEntries(inV2.map((one) => [`in.${plan.bundles.indexOf(one)}`, 'on'])),
    });
    expect(await world.text(`/plans/${last}`)).not.toContain(told(next, inV2));
  });

  test('a copy of it is a rest of that plan, too', async () => {
    const { serial, rest, stands } = await withRest();
    const copy = await world.post(`/jobs/${rest}/copy`);
    const text = await world.text(copy.headers.get('location')!);
    expect(text).toContain(`What was left of <a href="/plans/${serial}">`);
    const kept = world.store.rests.ofJob(Number(/\d+$/.exec(copy.headers.get('location')!)![0]))!.stands;
    expect([...kept].sort()).toEqual(stands.map(({ bundle }) => bundle).sort());
  });

  test('and deleted again, the plan before holds as it did', async () => {
    const { serial, rest, gone } = await withRest();
    planFor(rest);
    await world.post(`/jobs/${rest}/delete`, {});
    expect(await world.text(`/plans/${serial}`)).not.toContain('a job of its own');
    expect(await world.text(`/b/${serial}/${gone.bundle}`)).not.toContain('This tag no longer holds');
  });
});
