import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { effectOf } from '../../src/balance/float.ts';
import { stowedWeights } from '../../src/balance/trial.ts';
import { fixedPart } from '../../src/plan/share.ts';
import { bringPlanned } from './keepPlan.ts';
import { readPdf, textOf } from './paper/readPdf.ts';
import { stackedPair } from './paper/stackedPlan.ts';
import { BOGBEAN, openWorld, type World } from './world.ts';

let world: World;
beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

describe('the trial of a plan', () => {
  const { vessel } = JSON.parse(BOGBEAN);

  /** A plan in the store, of 6 voids with 6 bundles of 3 kg each, for a vessel or none. */
  async function planOf(withVessel: boolean): Promise<{ job: string; plan: string }> {
    const { job, plan } = stackedPair({ voids: 6, runs: 2, tiers: 3, across: 1 });
    const { id, serial } = await bringPlanned(world, withVessel ? { ...job, vessel } : job, plan);
    return { job: `/jobs/${id}`, plan: `/plans/${serial}` };
  }

  test('the first bundles of every void go in, and her marks are forecast', async () => {
    const { plan } = await planOf(true);
    const page = await world.text(`${plan}/trial?share=50`);
    expect(page.match(/3 of 6/g)).toHaveLength(6);
    expect(page).toMatch(/she should be: down 0\.4 cm/);
    expect(page).not.toContain('Forecast and read');
    expect(await world.text(plan)).toContain(`${plan}/trial`);
  });

  test('readings are compared, corrected figures go into the job, and the rest is placed', async () => {
    const { job, plan } = await planOf(true);
    const { job: made, plan: file } = stackedPair({ voids: 6, runs: 2, tiers: 3, across: 1 });
    const forecast = effectOf(vessel, stowedWeights(made, file, fixedPart(file, 0.8)));
    if (forecast.marks.kind !== 'answer') throw new Error(forecast.marks.why);
    // She went down half as much again at both ends as was forecast, and by 2 cm on top of that.
    const deeper = (before: number, cm: number) => String(before + (1.5 * cm + 2) / 100);
    const readings = {
      share: '80',
      beforeForward: '0.86',
      beforeAft: '1.12',
      afterForward: deeper(0.86, forecast.marks.forward.likely),
      afterAft: deeper(1.12, forecast.marks.aft.likely),
      wantForward: '3',
      wantAft: '3',
    };
    const page = await world.text(`${plan}/trial?${new URLSearchParams(readings)}`);
    expect(page).toMatch(/fore end went down [\d.]+ cm more than forecast/);
    expect(page).toContain('kg per cm from the marks');
    expect(page.match(/data-label="in the end">[456] of 6/g)).toHaveLength(6);
    expect(page).toMatch(
      /Have in as many as stands under “in the end”: she comes within [\d.]+ cm of the mark wanted forward/,
    );
    expect(page).toContain('That counts from the marks that were read');
    // So far from what is stated that it is taken knowingly alone.
    const unknowing = await world.post(`${plan}/trial`, { ...readings, revision: '1' });
    expect(unknowing.headers.get('location')).toMatch(/\/trial\?share=80/);
    expect(JSON.parse(await world.text(`${job}/job.json`)).vessel.kgPerCm).toBe(150);
    const answer = await world.post(`${plan}/trial`, { ...readings, revision: '1', knowing: '1' });
    expect(answer.status).toBe(303);
    const corrected = JSON.parse(await world.text(`${job}/job.json`)).vessel;
    expect(corrected.kgPerCm).toBeLessThan(100);
    expect(corrected.beam).toBe(2.6);
    const late = await world.post(`${plan}/trial`, { ...readings, afterAft: '1.2', revision: '1', knowing: '1' });
    expect(late.headers.get('location')).toMatch(/^\/jobs\/\d+#beside-\d+$/);
  });

  test('what goes in after it stands in its order, what stays ashore by its marks; with all in, what is too much comes out', async () => {
    const { plan } = await planOf(true);
    const { job: made, plan: file } = stackedPair({ voids: 6, runs: 2, tiers: 3, across: 1 });
    const asked = async (share: number, want: number) => {
      const forecast = effectOf(vessel, stowedWeights(made, file, fixedPart(file, share / 100)));
      if (forecast.marks.kind !== 'answer') throw new Error(forecast.marks.why);
      const { forward, aft } = forecast.marks;
      const readings = {
        share: String(share),
        beforeForward: '0.86',
        beforeAft: '1.12',
        afterForward: String(0.86 + forward.likely / 100),
        afterAft: String(1.12 + aft.likely / 100),
        wantForward: String(want * forward.likely),
        wantAft: String(want * aft.likely),
      };
      return world.text(`${plan}/trial?${new URLSearchParams(readings)}`);
    };
    const more = await asked(80, 36 / 24);
    expect(more).not.toContain('Lift out again first');
    const into = /<h3>Put in, in this order<\/h3><ol class="outs">([\s\S]*?)<\/ol>/.exec(more)![1]!;
    expect(into.match(/<li>/g)).toHaveLength(12);
    const all = await asked(100, 30 / 36);
    const out = /Lift out again first:<\/strong> ([^;]*), in this order; ([\d.]+) kg/.exec(all)!;
    expect(out[1]!.split(', ').length).toBeGreaterThan(3);
    for (const mark of out[1]!.split(', ')) expect(mark).toMatch(/-0[56]$/);
    expect(Number(out[2])).toBe(3 * out[1]!.split(', ').length);
    expect(all).toContain('<strong>Left ashore:</strong>');
    expect(all).toContain('Chock the room that they leave');
  });

  test('what goes in or comes out after it is told as too heavy for one person by the scale, and a list that can not be told', async () => {
    const { plan } = await planOf(true);
    const serial = Number(plan.split('/').at(-1));
    const { job: made, plan: file } = stackedPair({ voids: 6, runs: 2, tiers: 3, across: 1 });
    const forecast = effectOf(vessel, stowedWeights(made, file, fixedPart(file, 1)));
    if (forecast.marks.kind !== 'answer') throw new Error(forecast.marks.why);
    const { forward, aft } = forecast.marks;
    const asked = async (share: string, want: number) => {
      const readings = { share, beforeForward: '0.86', beforeAft: '1.12' };
      const after = { afterForward: String(0.86 + forward.likely / 100), afterAft: String(1.12 + aft.likely / 100) };
      const wanted = { wantForward: String(want * forward.likely), wantAft: String(want * aft.likely) };
      return world.text(`${plan}/trial?${new URLSearchParams({ ...readings, ...after, ...wanted })}`);
    };
    expect(await asked('100', 30 / 36)).not.toContain('TWO PEOPLE');
    const last = file.bundles.filter(({ order }) => order === 6).map(({ bundle }) => bundle);
    world.store.weighed.set(serial, new Map(last.map((bundle) => [bundle, 8.3])), '2026-05-05T10:00:00Z');
    const heavy = ' or a mechanical aid: 8.3 kg is over the lift limit of 8 kg.';
    const out = /Lift out again first:[\s\S]*?<\/p>/.exec(await asked('100', 20 / 36))![0];
    expect(out).toContain(`${last[0]}: TWO PEOPLE${heavy}`);
    const into = await asked('80', 30 / 24);
    expect(into).toMatch(new RegExp(`<strong>${last[1]}</strong>.*TWO PEOPLE${heavy}`));
    expect(into).toContain('at most on the way');
    const job = await world.bring(JSON.stringify({ ...made, vessel: { ...vessel, gm: undefined } }));
    const body = await world.text(`${job}/job.json`);
    const untold = recordPlan(
      world.store,
      { job: Number(job.split('/').at(-1)), body },
      JSON.stringify(file),
      null,
      false,
      '2026-05-04T10:00:00Z',
    );
    const page = await world.text(
      `/plans/${untold}/trial?${new URLSearchParams({ share: '80', beforeForward: '0.86', beforeAft: '1.12', afterForward: '0.87', afterAft: '1.13', wantForward: '3', wantAft: '3' })}`,
    );
    expect(page).toContain('How much she lists on the way can not be told');
  });

  test('what stays ashore is written down: it is not next in, and page, tag, register and table say so', async () => {
    const { plan } = await planOf(true);
    const { job: made, plan: file } = stackedPair({ voids: 6, runs: 2, tiers: 3, across: 1 });
    const forecast = effectOf(vessel, stowedWeights(made, file, fixedPart(file, 0.8)));
    if (forecast.marks.kind !== 'answer') throw new Error(forecast.marks.why);
    const { forward, aft } = forecast.marks;
    const readings = {
      share: '80',
      beforeForward: '0.86',
      beforeAft: '1.12',
      afterForward: String(0.86 + forward.likely / 100),
      afterAft: String(1.12 + aft.likely / 100),
    };
    const first = { wantForward: String(1.25 * forward.likely), wantAft: String(1.25 * aft.likely) };
    const put = file.bundles.flatMap(({ order }, n) => (order <= 4 ? [[`in.${n}`, 'on']] : []));
    await world.post(`${plan}/stowed`, Object.fromEntries(put));
    const page = await world.text(`${plan}/trial?${new URLSearchParams({ ...readings, ...first })}`);
    const into = [...page.matchAll(/<li><strong>([^<]*)<\/strong>/g)].map(([, mark]) => mark!);
    expect(into.length).toBeGreaterThan(3);
    expect(into.length).toBeLessThan(9);
    const answer = await world.post(`${plan}/ashore`, { ...readings, ...first });
    expect(answer.headers.get('location')).toBe(`${plan}/stowed?saved=ashore`);
    const kept = (await world.text(`${plan}/stowed`)).match(/left ashore after the trial/g);
    expect(kept).toHaveLength(12 - into.length);
    const bundles = file.bundles.map(({ bundle }) => bundle);
    await world.post(`${plan}/stowed`, Object.fromEntries(into.map((mark) => [`in.${bundles.indexOf(mark)}`, 'on'])));
    const done = await world.text(`${plan}/stowed`);
    expect(done).not.toContain('Next in');
    expect(done).not.toContain('Next back');
    const ashore = bundles.find((mark) => Number(mark.slice(-1)) > 4 && !into.includes(mark))!;
    expect(await world.text(`/b/${plan.split('/').at(-1)}/${ashore}`)).toContain('Left ashore after the trial.');
    const register = await world.get(`${plan}/papers/ballast-register.pdf`);
    const words = textOf(await readPdf(new Uint8Array(await register.arrayBuffer()))).replace(/\s+/g, ' ');
    expect(words).toContain('Left ashore after the trial, and not in her: ');
    expect(words).toContain('left ashore after the trial.');
    expect(await world.text(`${plan}/tables/record.csv`)).toContain(`,${ashore},3,left ashore,`);
    // Of readings from which nothing follows nothing is written.
    const none = await world.post(`${plan}/ashore`, { share: '80' });
    expect(none.headers.get('location')).toMatch(/\/trial\?share=80/);
  });

  test('what lies in the voids counts in the forecast and the marks wanted, and the page says so', async () => {
    const { job, plan } = stackedPair({ voids: 2, runs: 2, tiers: 3, across: 1 });
    const pig = { what: 'old pig', mass: 120, along: [0, 1], across: [-1, 1], up: [0, 1], access: false };
    const voids = job.voids.map((space, n) => (n === 0 ? { ...space, keepOut: [pig] } : space));
    const pages: string[] = [];
    for (const own of [job, { ...job, voids }]) {
      const body = JSON.stringify({ ...own, vessel });
      const id = Number((await world.bring(body)).split('/').at(-1));
      const at = '2026-05-04T10:00:00Z';
      const serial = recordPlan(world.store, { job: id, body }, JSON.stringify(plan), null, false, at);
      pages.push(await world.text(`/plans/${serial}/trial`));
    }
    const [without, beside] = pages.map((page) => ({
      down: Number(/she should be: down ([\d.]+) cm/.exec(page)![1]),
      wanted: Number(/name="wantForward" value="(-?[\d.]+)"/.exec(page)![1]),
      told: page.includes('That counts the 120 kg that lie in the voids already'),
    }));
    expect(beside!.down).toBeGreaterThan(without!.down + 0.5);
    expect(beside!.wanted).not.toBe(without!.wanted);
    expect([without!.told, beside!.told]).toEqual([false, true]);
  });

  test('one of two voids that lie over each other is filled before it or waits, and page and stowage sheets say so', async () => {
    const { job, plan } = stackedPair({ voids: 3, runs: 2, tiers: 3, across: 1 });
    const origin = { ...job.voids[0]!.origin, z: job.voids[0]!.origin.z + 0.15 };
    const voids = job.voids.map((space, n) => (n === 1 ? { ...space, origin } : space));
    const body = JSON.stringify({ ...job, voids, vessel });
    const id = Number((await world.bring(body)).split('/').at(-1));
    const at = '2026-05-04T10:00:00Z';
    const serial = recordPlan(world.store, { job: id, body }, JSON.stringify(plan), null, false, at);
    const first = (page: string) => [...page.matchAll(/data-label="first">(\d) of 6/g)].map(([, told]) => Number(told));
    const page = await world.text(`/plans/${serial}/trial`);
    expect(first(page)).toEqual([6, 4, 4]);
    expect(page).toContain('<strong>V1 lies under V2</strong>: all of it goes in before the trial, its trim part too');
    const little = await world.text(`/plans/${serial}/trial?share=20`);
    expect(first(little)).toEqual([1, 0, 1]);
    expect(little).toContain('<strong>V2 lies over V1</strong>: all of it waits until after the trial');
    expect(await world.text(`/plans/${serial}/trial?share=100`)).not.toMatch(/waits until after|its trim part too/);
    const pdf = await world.get(`/plans/${serial}/papers/stowage.pdf`);
    const text = textOf(await readPdf(Buffer.from(await pdf.arrayBuffer()))).replace(/\s+/g, ' ');
    expect(text).toContain('V1 lies under V2: all of it goes in before the trial, its trim part too, while it can be');
    expect(text).toContain('Lies under V2: all of it goes in before the trial, while it can be reached.');
  });

  test('a share that is none is refused in words, and nothing is concluded from it', async () => {
    const { job, plan } = await planOf(true);
    const readings = { beforeForward: '0.86', beforeAft: '1.12', afterForward: '0.88', afterAft: '1.14' };
    for (const share of ['150', '-5', 'most']) {
      const page = await world.text(`${plan}/trial?${new URLSearchParams({ ...readings, share })}`);
      expect(page).toContain(`“${share}” is none: what is told here is for the 80 % of the job`);
      expect(page).not.toContain('Forecast and read');
      await world.post(`${plan}/trial`, { ...readings, share, revision: '1' });
    }
    expect(JSON.parse(await world.text(`${job}/job.json`)).vessel).toEqual(vessel);
    expect(await world.text(`${plan}/trial?${new URLSearchParams({ ...readings, share: '80 %' })}`)).toContain(
      'Forecast and read',
    );
    expect(await world.text(`${plan}/trial?period=soon`)).toContain(
      'This is no number. <span class="remedy">Write seconds',
    );
    for (const [period, fault] of [
      ['0', 'This is less than 0.1 s.'],
      ['-3', 'This is less than 0.1 s.'],
      ['2600', 'This is more than 60 s.'],
    ] as const)
      expect(await world.text(`${plan}/trial?period=${period}`), period).toContain(fault);
  });

  test('a reading that is plainly wrong is doubted: what follows is not gone by, and written down knowingly alone', async () => {
    const { plan } = await planOf(true);
    const serial = Number(plan.split('/').at(-1));
    const { plan: file } = stackedPair({ voids: 6, runs: 2, tiers: 3, across: 1 });
    const put = file.bundles.flatMap(({ order }, n) => (order <= 4 ? [[`in.${n}`, 'on']] : []));
    await world.post(`${plan}/stowed`, Object.fromEntries(put));
    const keep = { do: 'keep', forward: '0.97', aft: '1.16', list: '8 to port', period: '31' };
    await world.post(`${plan}/read`, keep);
    const page = await world.text(`${plan}/trial?share=80`);
    expect(page).toContain('Read otherwise than reckoned.');
    for (const what of ['List', 'Trim', 'Depth', 'One roll'])
      expect(page, what).toMatch(new RegExp(`<li>${what}: reckoned [^<]*, read `));
    expect(page).toMatch(/kg per cm from the marks: \d+ kg; [^<]* DOUBTFUL: 150 kg is stated/);
    expect(page).toContain('It is reckoned with her figures as stated, not with those in doubt.');
    // What follows is folded away, and not where nothing is in doubt.
    expect(page).toMatch(
      /<details><summary>What would follow from it<\/summary>[\s\S]*<\/details>\s*[\s\S]*all the same/,
    );
    const buttons = [...page.matchAll(/formaction="([^"]*)">([^<]*)</g)].map(([, way, label]) => [way!, label!]);
    expect(buttons).toHaveLength(2);
    for (const [way, label] of buttons) {
      expect(way).toContain('knowing=1');
      expect(label).toMatch(/all the same$/);
    }
    const record = () => world.store.records.of(serial).filter(({ what }) => what === 'ashore');
    const fields = { share: '80', wantForward: '0', wantAft: '0' };
    const unknowing = await world.post(`${plan}/ashore`, fields);
    expect(unknowing.headers.get('location')).toMatch(/\/trial\?share=80/);
    expect(record()).toEqual([]);
    await world.post(`${plan}/ashore`, { ...fields, knowing: '1' });
    expect(record().length).toBeGreaterThan(0);
  });

  test('a reading with other bundles in than are counted is doubted, and no figure is taken from it', async () => {
    const { plan } = await planOf(true);
    const { job: made, plan: file } = stackedPair({ voids: 6, runs: 2, tiers: 3, across: 1 });
    const put = (most: number) =>
      world.post(
        `${plan}/stowed`,
        Object.fromEntries(file.bundles.flatMap(({ order }, n) => (order <= most ? [[`in.${n}`, 'on']] : []))),
      );
    await put(4);
    const { marks } = effectOf(vessel, stowedWeights(made, file, fixedPart(file, 0.8)));
    if (marks.kind !== 'answer') throw new Error(marks.why);
    const at = (stated: number, { likely }: { likely: number }) => String(stated + likely / 100);
    await world.post(`${plan}/read`, { do: 'keep', forward: at(0.86, marks.forward), aft: at(1.12, marks.aft) });
    const agreed = await world.text(`${plan}/trial?share=80`);
    expect(agreed).toContain('Forecast and read');
    expect(agreed).not.toContain('all the same');
    const other = await world.text(`${plan}/trial?share=100`);
    expect(other).toContain('<strong>No. 1 was read with 24 bundles in, and 36 are counted here.</strong>');
    expect(other).toContain('all the same');
    expect(other).toContain('Put nothing in and leave nothing ashore by what follows');
    // Of marks that are typed, what is in now.
    const typed = new URLSearchParams({ share: '100', afterForward: '0.87', afterAft: '1.13' });
    expect(await world.text(`${plan}/trial?${typed}`)).toContain('By the record 24 bundles are in, and 36 are counted');
  });

  test('draughts in centimetres are doubted, and nothing is concluded', async () => {
    const { plan } = await planOf(true);
    const page = await world.text(`${plan}/trial?beforeForward=0.86&beforeAft=1.12&afterForward=89&afterAft=115`);
    expect(page).toContain('Draughts are in metres');
    expect(page).not.toContain('Forecast and read');
  });

  test('its button posts the form itself, as what was typed then stands, and no token is in it', async () => {
    const { job, plan } = await planOf(true);
    const readings = { share: '80', beforeForward: '0.86', beforeAft: '1.12', afterForward: '0.96', afterAft: '1.22' };
    const page = await world.text(`${plan}/trial?${new URLSearchParams(readings)}`);
    expect(page).not.toContain('type="hidden"');
    const [, way] = /<button[^>]* form="typed" formmethod="post" formaction="([^"]+)">Put her/.exec(page)!;
    const form = new URLSearchParams({ ...readings, afterForward: '0.91', afterAft: '1.17' });
    const post = (path: string) => world.get(path, { method: 'POST', body: form });
    expect((await post(`${plan}/trial?revision=1`)).status).toBe(403);
    expect((await post(way!.replaceAll('&amp;', '&'))).headers.get('location')).toBe(`${job}?saved=1#vessel`);
    const { kgPerCm } = JSON.parse(await world.text(`${job}/job.json`)).vessel;
    // Half the change of draught that stood there when the page was made.
    expect(page).toContain('kg per cm from the marks: 7 kg');
    expect(kgPerCm).toBe(14);
  });

  test('without a vessel the page says what to state', async () => {
    const { plan } = await planOf(false);
    expect(await world.text(`${plan}/trial`)).toContain('State what you know');
  });
});
