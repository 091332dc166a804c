import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { BOGBEAN, openWorld, type World } from './world.ts';

let world: World;
beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

/** The address of the page of void `n`, from 1, with what was typed of its lift. */
function typed(job: string, n: number, fields: Record<string, string>): string {
  const query = Object.entries(fields).map(([name, value]) => [`voids[${n - 1}].${name}`, value]);
  return `${job}/lift?${new URLSearchParams([['void', String(n)], ...query] as [string, string][])}`;
}

const fileOf = async (job: string) => JSON.parse(await world.text(`${job}/job.json`));

describe('what one person may lift', () => {
  test('the numbers and the drawing follow what is typed, and nothing is saved by it', async () => {
    const job = await world.bring(BOGBEAN);
    const near = await world.text(typed(job, 6, { 'handling.reach': '300' }));
    const far = await world.text(typed(job, 6, { 'handling.reach': '600' }));
    for (const page of [near, far]) expect(page).toContain('Not confirmed:');
    expect(near).toContain('>reach 300<');
    expect(far).toContain('>reach 600<');
    const most = (page: string) => Number(/At most <strong>([\d.]+) kg/.exec(page)![1]);
    expect(most(far)).toBeLessThan(most(near));
    expect((await fileOf(job)).voids[5].handling.reach).toBe(420);
  });

  test('a bilge leg is told as outside the method, and its figure as a default of this project', async () => {
    const { voids } = JSON.parse(BOGBEAN);
    const job = await world.bring(BOGBEAN);
    expect(voids[1].handling.posture).toBe('kneeling');
    const page = await world.text(typed(job, 2, { 'handling.tested': '' }));
    expect(page).toContain('does not cover kneeling');
    expect(page).toContain('a cautious default of this project, not a published limit');
    expect(page).toContain('It says nothing of kneeling');
    // Nothing on the page calls a figure safe.
    expect(page).not.toMatch(/\bsafe/i);
  });

  test('put into the job, the lift is saved, and the limit follows the guide where that is asked', async () => {
    const job = await world.bring(BOGBEAN);
    const fields = { void: '6', revision: '1', 'voids[5].handling.reach': '380' };
    expect((await world.post(`${job}/lift`, { ...fields, do: 'save' })).status).toBe(303);
    const [saved] = (await fileOf(job)).voids.slice(5);
    expect([saved.handling.reach, saved.limit, saved.limitByGuide]).toEqual([380, 9, undefined]);
    await world.post(`${job}/lift`, { ...fields, revision: '2', 'voids[5].handling.reach': '600', do: 'follow' });
    const [followed] = (await fileOf(job)).voids.slice(5);
    expect(followed.limitByGuide).toBe(true);
    expect(followed.limit).toBeLessThan(9);
    expect(await world.text(`${job}/lift?void=6`)).toContain('follows the guide where that is lower');
  });

  test('a reach beyond the method leaves no load: both pages say so, and the limit is not put at 0', async () => {
    const job = await world.bring(BOGBEAN);
    const fields = { void: '6', 'voids[5].handling.reach': '640', 'voids[5].handling.tested': '' };
    const page = await world.text(typed(job, 6, { 'handling.reach': '640', 'handling.tested': '' }));
    expect(page).toContain('<strong>Nothing</strong> in one lift.');
    expect(page).toContain('leaves no load. Come nearer');
    expect(page).not.toContain('value="follow"');
    await world.post(`${job}/lift`, { ...fields, revision: '1', do: 'follow' });
    const [followed] = (await fileOf(job)).voids.slice(5);
    expect([followed.handling.reach, followed.limit, followed.limitByGuide]).toEqual([640, 9, true]);
    expect(await world.text(`${job}/lift?void=6`)).toContain('nothing is placed here until that is changed');
    expect(await world.text(job)).toContain('Its limit follows the guide: nothing is placed here.');
  });

  test('a figure that is none is marked at its field and kept; faults elsewhere do not hide the answer', async () => {
    const job = await world.bring(BOGBEAN.replace('"length": 700', '"length": -700'));
    expect(await world.text(`${job}/lift?void=5`)).toContain('At most');
    const page = await world.text(typed(job, 5, { 'handling.reach': 'an arm <b>' }));
    expect(page).toContain('value="an arm &lt;b&gt;"');
    expect(page).toContain('Mend what is marked');
    expect(page).toContain('aria-invalid="true"');
  });

  test('a reach in centimetres is doubted beside its field, and no fault', async () => {
    const job = await world.bring(BOGBEAN);
    const page = await world.text(typed(job, 6, { 'handling.reach': '40' }));
    expect(page).toContain('aria-describedby="voids-5-handling-reach-help voids-5-handling-reach-doubt"');
    expect(page).toMatch(/class="doubt" id="voids-5-handling-reach-doubt">Did you mean 40 cm/);
    expect(page).toContain('At most <strong>');
  });

  test('typed over an older revision it is kept beside', async () => {
    const job = await world.bring(BOGBEAN);
    const fields = { void: '6', revision: '1', do: 'save' };
    await world.post(`${job}/lift`, { ...fields, 'voids[5].handling.reach': '380' });
    await world.post(`${job}/lift`, { ...fields, 'voids[5].handling.reach': '500' });
    expect((await fileOf(job)).voids[5].handling.reach).toBe(380);
    expect(await world.text(job)).toContain('changed in another window');
  });

  test('a void that the job does not have is told, and a post to it changes nothing', async () => {
    const job = await world.bring(BOGBEAN);
    for (const n of ['99', '0', 'x', '1e9']) expect((await world.get(`${job}/lift?void=${n}`)).status).toBe(200);
    expect(await world.text(`${job}/lift?void=99`)).toContain('no such void');
    expect((await world.post(`${job}/lift`, { void: '99', revision: '1', do: 'follow' })).status).toBe(303);
    expect(await fileOf(job)).toEqual(JSON.parse(BOGBEAN));
  });

  test('the zones become the job’s own, row by row, once asked for', async () => {
    const job = await world.bring(BOGBEAN);
    await world.post(job, { revision: '1', do: 'add lift.zones.rows' });
    const file = await fileOf(job);
    expect(file.lift.zones.rows).toHaveLength(5);
    await world.post(job, { revision: '2', do: 'save', 'lift.zones.rows[0].armsLength.women': '2.5' });
    expect((await fileOf(job)).lift.zones.rows[0].armsLength.women).toBe(2.5);
    expect(await world.text(`${job}/lift?void=2`)).toContain('data-label="women, at arm\'s length">2.5<');
  });

  test('the pile says which whole bars one person carries alone', async () => {
    const page = await world.text(await world.bring(BOGBEAN));
    const sums = [...page.matchAll(/data-sum="[^"]+">([^<]*)</g)].map(([, sum]) => sum!);
    // 2.98 m of 25 mm round are 11.5 kg and 3.92 m of 30 mm square 27.7 kg; the guide of the first leg is 11.7 kg.
    expect(sums[0]).toContain('one person carries a whole bar');
    expect(sums[2]).toMatch(/a whole bar is 27\.7 kg: two people or rollers/);
    const file = JSON.parse(BOGBEAN);
    const { length, count: _, ...odd } = file.pile[2];
    file.pile[2] = { ...odd, lengths: [length, 900] };
    expect(await world.text(await world.bring(JSON.stringify(file)))).toMatch(
      /the longest bar is 27\.7 kg: two people/,
    );
  });

  test('the job page shows the drawing beside each void whose lift is stated', async () => {
    const job = await world.bring(BOGBEAN);
    expect((await world.text(job)).match(/class="lifter"/g)).toHaveLength(8);
  });
});
