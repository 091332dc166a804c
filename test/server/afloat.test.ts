import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { readJobValue } from '../../src/job/readJob.ts';
import { BOGBEAN, openWorld, type World } from './world.ts';

let world: World;
beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

describe('afloat, before a plan', () => {
  test('trial amounts are answered in a sentence, what was typed stays typed', async () => {
    const job = await world.bring(BOGBEAN);
    const page = await world.text(`${job}/afloat?kg.0=&kg.1=60&kg.2=80&kg.3=80&kg.4=180&kg.5=0&kg.6=0&kg.7=0`);
    expect(page).toMatch(/Down 2\.7 cm, [\d.]+ cm more by the head, no list/);
    expect(page).toContain('name="kg.4" value="180"');
    expect(page).toContain('not approval');
  });

  test('one side only lists her; too much passes a limit, and is told as passing it', async () => {
    const job = await world.bring(BOGBEAN);
    expect(await world.text(`${job}/afloat?kg.0=0&kg.5=0&kg.6=120`)).toMatch(/lists 1\.\d° to starboard/);
    expect(await world.text(`${job}/afloat?kg.0=0&kg.4=1500&kg.5=0&kg.6=0`)).toContain('TOO HEAVY');
  });

  test('whether all of it is meant for an end is not asked while nothing is put anywhere', async () => {
    const { voids, ...rest } = JSON.parse(BOGBEAN);
    const aft = voids.map((space: { origin: object }) => ({
      ...space,
      origin: { ...space.origin, x: 1 },
      target: undefined,
    }));
    const job = await world.bring(JSON.stringify({ ...rest, voids: aft }));
    const asked = 'All of it lies in the after end';
    expect(await world.text(`${job}/afloat?kg.0=60`)).toContain(asked);
    const nothing = await world.text(`${job}/afloat`);
    expect(nothing).toContain('Nothing is put anywhere yet.');
    expect(nothing).not.toContain(asked);
  });

  test('an amount that is none is marked, and kept as typed', async () => {
    const job = await world.bring(BOGBEAN);
    const page = await world.text(`${job}/afloat?kg.0=a+lot%3Cb%3E&kg.1=-5`);
    expect(page).toContain('value="a lot&lt;b&gt;"');
    expect(page).toContain('This is no amount.');
    expect(page).toContain('This is less than 0 kg.');
  });

  test('amounts are understood in every unit that the manual lists, and told as read', async () => {
    const job = await world.bring(BOGBEAN);
    const rest = 'kg.0=&kg.2=&kg.3=&kg.4=&kg.5=&kg.6=&kg.7=';
    const page = await world.text(`${job}/afloat?${rest}&kg.1=60+lb`);
    // 60 × 0.45359237 kg.
    expect(page).toContain('= 27.216 kg');
    expect(page).toContain('27.2 kg of ballast in all');
    expect(page).not.toContain('This is no amount');
    const comma = await world.text(`${job}/afloat?${rest}&kg.1=1,280`);
    expect(comma).toContain('could be a thousand or a little over one');
    const asks = async (query: string) =>
      /What it asks for[\s\S]*?(?=<form|<\/section>)/.exec(await world.text(`${job}/afloat?${query}`))![0];
    expect(await asks(`ballast=${encodeURIComponent('1000 lb')}&trim=${encodeURIComponent('-20 mm')}`)).toBe(
      await asks('ballast=453.592&trim=-2'),
    );
  });

  test.each([
    ['a trim that is no number', { ballast: '300', trim: 'abc' }, 'Change of trim by the head”: abc can not be meant'],
    ['a trim of ten metres', { ballast: '300', trim: '1000' }, 'This is more than 500 cm.'],
    ['less ballast than none', { ballast: '-300', trim: '0' }, 'This is less than 0 kg.'],
    ['one end alone', { forward: '3' }, 'give both ends, or neither.'],
    ['a draught in centimetres', { markForward: '19', markAft: '1.2' }, 'more than 5 m from how she floats now'],
    [
      'more ballast than she weighs',
      { ballast: '5000', trim: '0' },
      '5000 kg of ballast is more than all that she weighs now (4900 kg)',
    ],
    [
      'a list that can not be read',
      { ballast: '300', trim: '0', listNow: 'askew' },
      'What she lists now can not be read',
    ],
  ])('%s is refused in words, and nothing of it goes into the job', async (_, typed: Record<string, string>, words) => {
    const job = await world.bring(BOGBEAN);
    const page = await world.text(`${job}/afloat?${new URLSearchParams(typed)}`);
    expect(page).toContain(words);
    expect(page).not.toContain("Put this into the job's aims");
    const answer = await world.post(`${job}/afloat`, { ...typed, revision: '1' });
    expect(answer.headers.get('location')).toBe(`${job}/afloat?${new URLSearchParams(typed)}`);
    expect(JSON.parse(await world.text(`${job}/job.json`))).toEqual(JSON.parse(BOGBEAN));
  });

  test('more than a third of what she weighs is asked back, in amounts, as an aim and before the plan', async () => {
    const job = await world.bring(BOGBEAN);
    const question = 'kg of ballast is more than a third of all that she weighs now (4900 kg): is that meant?';
    const wanted = await world.text(`${job}/afloat?ballast=1700&trim=0`);
    expect(wanted).toContain(`1700 ${question}`);
    expect(wanted).toContain("Put this into the job's aims");
    expect(await world.text(`${job}/afloat?ballast=1600&trim=0`)).not.toContain(question);
    expect(await world.text(`${job}/afloat?kg.4=5000`)).toContain('is more than all that she weighs now');
    const heavy = await world.bring(BOGBEAN.replace('"ballast": 860', '"ballast": 1700'));
    expect(await world.text(heavy)).toContain(`1700 ${question}`);
  });

  test('an effect wanted becomes aims of the job', async () => {
    const job = await world.bring(BOGBEAN);
    const query = 'forward=3.2&aft=2.8&upright=none';
    expect(await world.text(`${job}/afloat?${query}`)).toContain('takes 448 kg');
    const answer = await world.post(`${job}/afloat`, { forward: '3.2', aft: '2.8', upright: 'none', revision: '1' });
    expect(answer.status).toBe(303);
    const file = JSON.parse(await world.text(`${job}/job.json`));
    expect(file.aims.ballast).toBe(448);
    expect(file.aims.kgPerHour).toBe(5);
    const read = readJobValue(file);
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    expect(read.value.job.aims.centre!.x![0]).toBeLessThan(3.91);
    expect(read.value.job.aims.centre!.x![1]).toBeGreaterThan(3.91);
    expect(read.value.job.aims.centre!.y![1]).toBeLessThan(0.2);
  });

  test('aims that an effect does not concern stay, a tighter range stays, and what is replaced is told first', async () => {
    const { aims, ...rest } = JSON.parse(BOGBEAN);
    const centre = { x: [3.8, 4.4], y: [-0.001, 0.001], z: [0.2, 0.3] };
    const stated = { ...aims, centre, effect: { gm: 0.9, down: { forward: 1, aft: 1 }, within: 2 } };
    const job = await world.bring(JSON.stringify({ ...rest, aims: stated }));
    const query = { ballast: '700', upright: 'none' };
    const page = await world.text(`${job}/afloat?${new URLSearchParams(query)}`);
    const before = page.slice(0, page.indexOf("Put this into the job's aims"));
    expect(before).toContain('it replaces:</p><ul><li>Ballast wanted: 700 kg in place of 860 kg</li></ul>');
    expect(before).toContain('stays:</p><ul><li>Centre to starboard: -0.001 to 0.001 m</li></ul>');
    await world.post(`${job}/afloat`, { ...query, revision: '1' });
    const file = JSON.parse(await world.text(`${job}/job.json`));
    expect(file.aims).toEqual({ ...stated, ballast: 700, effect: { ...stated.effect, upright: true } });
    // A trim takes the place of the marks and of the range along.
    const trim = { ballast: '700', trim: '0' };
    const next = await world.text(`${job}/afloat?${new URLSearchParams(trim)}`);
    expect(next).toMatch(/<li>Centre forward: 3\.\d+ to 3\.\d+ m in place of 3\.8 to 4\.4 m<\/li>/);
    expect(next).toContain('<li>Wanted: down at the fore end: nothing, where 1 cm stands</li>');
    await world.post(`${job}/afloat`, { ...trim, revision: '2' });
    const then = JSON.parse(await world.text(`${job}/job.json`)).aims;
    expect(then.effect).toEqual({ gm: 0.9, within: 2, upright: true, trim: 0 });
    expect(then.centre.z).toEqual([0.2, 0.3]);
  });

  test('the effect is kept with the aims, the amounts become targets where that is asked, and the plan is held against it', async () => {
    const job = await world.bring(BOGBEAN);
    const wanted = { forward: '3.2', aft: '2.8', upright: 'none' };
    expect(await world.text(`${job}/afloat?${new URLSearchParams(wanted)}`)).toContain('One way to share it out');
    await world.post(`${job}/afloat`, { ...wanted, targets: 'too', revision: '1' });
    const file = JSON.parse(await world.text(`${job}/job.json`));
    expect(file.aims.effect).toEqual({ down: { forward: 3.2, aft: 2.8 }, upright: true });
    const sum = file.voids.reduce((total: number, space: { target: number }) => total + space.target, 0);
    expect(Math.abs(sum - 448)).toBeLessThanOrEqual(4);
    expect(file.voids[1].target).toBeLessThanOrEqual(70);
    expect(readJobValue(file).ok).toBe(true);
  });

  test('an effect that the voids can not give says so before anything is planned', async () => {
    const job = await world.bring(BOGBEAN);
    const page = await world.text(`${job}/afloat?forward=9&aft=-5`);
    expect(page).toContain('No amounts in these voids put the centre there');
    expect(page).not.toContain('with the amounts as targets');
  });

  test('marks wanted as draughts, a level trim and 2 cm by the stern become the same aims as their changes', async () => {
    const job = await world.bring(BOGBEAN);
    const asks = async (query: string) => {
      const page = await world.text(`${job}/afloat?${query}`);
      return /What it asks for[\s\S]*?(?=<form|<p class="told|<\/section>)/.exec(page)![0];
    };
    expect(await asks('markForward=0.892&markAft=1.148')).toBe(await asks('forward=3.2&aft=2.8'));
    expect(await asks('ballast=500&trimTo=level')).toBe(await asks('ballast=500&trim=26'));
    expect(await asks('ballast=500&trimTo=kept')).toContain('lies 3.86 m from the after end');
    expect(await asks('ballast=500&trim=-2')).toContain('lies 3.62 m from the after end');
    await world.post(`${job}/afloat`, { ballast: '500', trimTo: 'kept', revision: '1' });
    expect(JSON.parse(await world.text(`${job}/job.json`)).aims.effect).toEqual({ trim: 0 });
  });

  test('how she rolls is asked first, and each void is told as helping or making it worse', async () => {
    const job = await world.bring(BOGBEAN);
    const page = await world.text(`${job}/afloat`);
    expect(page.indexOf('How does she roll now?')).toBeLessThan(page.indexOf('So many kilograms'));
    expect(page).not.toContain('makes it worse</strong>');
    // What lies in the saloon lockers is higher than her draught less her GM, 0.33 m, and leaves her a smaller GM.
    const quick = await world.text(`${job}/afloat?roll=quick`);
    expect(quick.match(/<strong>makes it worse/g)).toHaveLength(6);
    expect(quick).toMatch(/V5P: slower, by 0\.001 s a roll: <strong>helps/);
    const slow = await world.text(`${job}/afloat?roll=slow`);
    expect(slow.match(/<strong>helps/g)).toHaveLength(6);
    expect(slow).toMatch(/V5S: slower, by 0\.001 s a roll: <strong>makes it worse/);
  });

  test('a job shown in feet and pounds has its figures in both', async () => {
    const job = await world.bring(BOGBEAN);
    await world.post(`${job}/units`, { do: 'inches' });
    const page = await world.text(`${job}/afloat?kg.0=&kg.1=60&kg.2=80&kg.3=80&kg.4=180&kg.5=0&kg.6=0&kg.7=0`);
    expect(page).toMatch(/Down 1\.\d in \(2\.7 cm\)/);
    // On the drawing too.
    expect(page).toMatch(/<text[^>]*>down 1\.\d in<\/text>/);
    expect(page).not.toMatch(/<text[^>]*>down [\d.]+ cm<\/text>/);
    expect(page).toMatch(/What she may still carry: 1322\.8 lb \(600 kg\)/);
  });

  test('an effect that can not be had is told with its reason and no button', async () => {
    const job = await world.bring(BOGBEAN);
    const page = await world.text(`${job}/afloat?ballast=50&trim=12`);
    expect(page).toContain('outside her waterline');
    expect(page).not.toContain("Put this into the job's aims");
  });

  test('a job with faults and one without a vessel say what to do', async () => {
    const faulty = await world.bring(BOGBEAN.replace('"length": 700', '"length": -700'));
    for (const page of ['afloat', 'readings']) {
      const told = await world.text(`${faulty}/${page}`);
      expect(told).toContain(`<a href="${faulty}#voids-0-length">Length</a>: `);
      expect(told).toContain('Mend them on');
    }
    const { vessel: _, aims: __, ...bare } = JSON.parse(BOGBEAN);
    expect(await world.text(`${await world.bring(JSON.stringify(bare))}/afloat`)).toContain('State what you know');
  });

  test('a limit that the ballast aimed at would pass is told before the plan button', async () => {
    expect(await world.text(await world.bring(BOGBEAN))).not.toContain('kg of ballast: ');
    const page = await world.text(await world.bring(BOGBEAN.replace('"ballast": 860', '"ballast": 2400')));
    expect(page).toMatch(/With 2400 kg of ballast: What she may still carry: nothing, she is 1400 kg over: TOO HEAVY/);
    expect(page.indexOf('NOT ENOUGH')).toBeLessThan(page.indexOf('value="plan"'));
  });

  test('an aim typed over an older revision is kept beside, and the job is left as it was', async () => {
    const job = await world.bring(BOGBEAN);
    await world.post(`${job}/afloat`, { ballast: '300', trim: '0', revision: '1' });
    const late = await world.post(`${job}/afloat`, { ballast: '200', trim: '0', revision: '1' });
    expect(late.headers.get('location')).toMatch(/^\/jobs\/\d+#beside-\d+$/);
    expect(JSON.parse(await world.text(`${job}/job.json`)).aims.ballast).toBe(300);
    expect(await world.text(job)).toContain('changed in another window');
  });
});

describe('a vessel that lists now', () => {
  // 4900 kg × 0.66 m × tan 1° = 56.4 kg·m, for 448 kg a centre 0.126 m to starboard.
  const wanted = { forward: '3.2', aft: '2.8', upright: 'none' };

  test('typed beside the roll, it counts in every answer', async () => {
    const job = await world.bring(BOGBEAN);
    const page = await world.text(`${job}/afloat?${new URLSearchParams({ ...wanted, listNow: '1 to port' })}`);
    expect(page).toContain('a moment of 56 kg·m that the ballast makes up for');
    expect(page).toContain('of 0.126 m to starboard');
    expect(await world.text(`${job}/afloat?kg.4=180&listNow=1+port`)).toMatch(
      /lists [\d.]+° to port instead of 1° to port/,
    );
    const wrong = await world.text(`${job}/afloat?listNow=askew`);
    expect(wrong).toContain('This is no list');
    expect(await world.text(`${job}/afloat?listNow=-1`)).toContain('= 1 to port');
  });

  test('goes into the job with the aims that make up for it, or alone', async () => {
    const job = await world.bring(BOGBEAN);
    await world.post(`${job}/afloat`, { ...wanted, listNow: '1 to port', revision: '1' });
    const file = JSON.parse(await world.text(`${job}/job.json`));
    expect(file.vessel.list).toBe(-1);
    const [from, to] = file.aims.centre.y;
    expect((from + to) / 2).toBeCloseTo(0.126, 2);
    expect(await world.text(`${job}/afloat`)).toContain('name="listNow" value="1 to port"');
    const other = await world.bring(BOGBEAN);
    expect(await world.text(`${other}/afloat?listNow=2+to+starboard`)).toContain('Put her list now into the job');
    await world.post(`${other}/afloat`, { listNow: '2 to starboard', revision: '1' });
    const alone = JSON.parse(await world.text(`${other}/job.json`));
    expect(alone.vessel.list).toBe(2);
    expect(alone.aims).toEqual(JSON.parse(BOGBEAN).aims);
  });

  test('without her displacement and GM the list is asked for what it takes, and no aims are offered', async () => {
    const { vessel: _, ...rest } = JSON.parse(BOGBEAN);
    const job = await world.bring(JSON.stringify({ ...rest, vessel: { lcf: 3.86, list: -1 } }));
    const page = await world.text(`${job}/afloat?ballast=300&upright=none`);
    expect(page).toContain('NOT COUNTED');
    expect(page).toContain('her displacement and her GM are needed');
    expect(page).not.toContain("Put this into the job's aims");
    expect(await world.text(job)).toContain('NOT COUNTED');
  });

  test('a centre by hand that contradicts “no list” is told before the plan button', async () => {
    const body = JSON.parse(BOGBEAN);
    body.aims = { ballast: 400, centre: { y: [0.2, 0.25] }, effect: { upright: true } };
    expect(await world.text(await world.bring(JSON.stringify(body)))).toContain('contradict each other');
    body.aims.centre.y = [-0.02, 0.02];
    expect(await world.text(await world.bring(JSON.stringify(body)))).not.toContain('contradict each other');
  });
});

describe('readings taken afloat', () => {
  const inclining = { inclineMass: '60', inclineBy: '1.5', line: '1000', moved: '28' };

  test('say what they mean with their range, and go into the job', async () => {
    const job = await world.bring(BOGBEAN);
    const page = await world.text(
      `${job}/readings?${new URLSearchParams({ ...inclining, rolls: '5', seconds: '14' })}`,
    );
    expect(page).toContain('about 0.66 m (0.63 to 0.68)');
    expect(page).toContain('One whole roll in 2.80 s');
    expect(page).toContain('Put these 2 figures of her into the job');
    expect(page).toContain('not approval');
    await world.post(`${job}/readings`, { ...inclining, rolls: '5', seconds: '14', revision: '1' });
    const { vessel } = JSON.parse(await world.text(`${job}/job.json`));
    expect([vessel.gm, vessel.rollPeriod, vessel.kgPerCm]).toEqual([0.656, 2.8, 150]);
    const late = await world.post(`${job}/readings`, { ...inclining, line: '1200', revision: '1' });
    expect(late.headers.get('location')).toMatch(/^\/jobs\/\d+#beside-\d+$/);
    expect(JSON.parse(await world.text(`${job}/job.json`)).vessel).toEqual(vessel);
  });

  test('a weight put aboard gives the kilograms for a centimetre, one moved the moment', async () => {
    const job = await world.bring(BOGBEAN);
    const aboard = { addedMass: '300', addedAt: '3.86', addedForward: '0.88', addedAft: '1.14' };
    const moved = { shiftMass: '120', shiftBy: '2.5', shiftForward: '0.885', shiftAft: '1.095' };
    const page = await world.text(`${job}/readings?${new URLSearchParams({ ...aboard, ...moved })}`);
    expect(page).toContain('It takes about 150 kg (120 to 200) to sink her 1 centimetre.');
    expect(page).toContain('It takes about 60 kg·m (50 to 75) to trim her 1 centimetre.');
  });

  test('metres where mm are wanted, and a sign where there is none, are named with what is wanted', async () => {
    const job = await world.bring(BOGBEAN);
    const asked = async (typed: Record<string, string>) =>
      world.text(`${job}/readings?${new URLSearchParams({ ...inclining, ...typed })}`);
    const wrong = await asked({ line: '1.5', moved: '-33', inclineBy: '-1.5' });
    expect(wrong).toContain('Did you mean 1.5 m? That is 1500 mm.');
    expect(wrong).toContain('moved by -33 mm: write 33, without a sign');
    expect(wrong).toContain('moved by -1.5 m: write 1.5, without a sign');
    expect(wrong).not.toContain('of her into the job');
    // 60 kg × 1.5 m / (4900 kg × 0.028) = 0.656 m, the line in metres with its unit.
    expect(await asked({ line: '1 m', moved: '2.8 cm' })).toContain('about 0.66 m');
  });

  test('readings that can not be are doubted, and nothing goes into the job', async () => {
    const job = await world.bring(BOGBEAN);
    const wrong = {
      ...inclining,
      moved: '400',
      rolls: '5',
      seconds: '900',
      addedMass: '300',
      addedAt: '4',
      addedForward: '88',
      addedAft: '114',
    };
    const page = await world.text(`${job}/readings?${new URLSearchParams(wrong)}`);
    for (const words of ['more than 7°', 'half a minute', 'draughts are in metres']) expect(page).toContain(words);
    expect(page).not.toContain('of her into the job');
    await world.post(`${job}/readings`, { ...wrong, revision: '1' });
    expect(JSON.parse(await world.text(`${job}/job.json`)).vessel).toEqual(JSON.parse(BOGBEAN).vessel);
    // 2.6 m of beam and 7 s: (0.8 × 2.6 / 7)² is 0.09 m.
    expect(await world.text(`${job}/readings?rolls=5&seconds=35`)).toMatch(/GM about 0\.09 m.*STOP: that is under/s);
    expect(await world.text(`${job}/readings?rolls=five%3Cb%3E`)).toContain('value="five&lt;b&gt;"');
  });
});
