/** The record of what is stowed: ticked, lifted out and put back, and told on pages, register and tables. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { NOTE_LONGEST } from '../../server/form/recordFields.ts';
import { loadingOf } from '../../src/balance/loading.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { recordIn, recordOf, restsOn } from '../../src/plan/record.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { readPdf, textOf } from './paper/readPdf.ts';
import { openWorld, type World } from './world.ts';

const { plan } = trialPair();
const AT = '2026-05-04T10:00:00.000Z';
const ofVoid = (name: string) =>
  plan.bundles.filter((bundle) => bundle.void === name).sort((p, q) => p.order - q.order);
const numberOf = (bundle: string) => plan.bundles.findIndex((own) => own.bundle === bundle);
const [first, second] = ofVoid('V1').map(({ bundle }) => bundle) as [string, string];
let world: World;
let serial = 0;
let job = 0;

beforeEach(async () => {
  world = await openWorld();
  job = world.store.jobs.add('Trial', JSON.stringify(trialJobInput()), AT);
  serial = planned();
});
afterEach(() => world.close());

function planned(body = JSON.stringify(plan)): number {
  world.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
  world.children.at(-1)?.say({ kind: 'plan', plan: body });
  world.children.at(-1)?.end();
  return world.store.plannings.latest(job)?.plan ?? 0;
}

const tick = (fields: Record<string, string>) => world.post(`/plans/${serial}/stowed`, fields);
const survey = (fields: Record<string, string>) =>
  world.post(`/plans/${serial}/survey`, { entries: String(told().length), ...fields });
const told = () => world.store.records.of(serial).map(({ bundle, what, note }) => `${bundle} ${what} ${note}`.trim());
/** By UTC, wherever the tests run. */
const times = () => world.store.records.of(serial).map(({ at }) => new Date(at).toISOString());
const voidNumber = (name: string) => String(plan.voids.findIndex((own) => own.void === name));
const register = async (of = serial): Promise<string> => {
  const answer = await world.get(`/plans/${of}/papers/ballast-register.pdf`);
  return textOf(await readPdf(new Uint8Array(await answer.arrayBuffer()))).replace(/\s+/g, ' ');
};

describe('stowed so far', () => {
  test('lists every void in loading order, nothing ticked; the plan and the page of a tag lead to it', async () => {
    const page = await world.text(`/plans/${serial}/stowed`);
    for (const name of ['V1', 'V2']) {
      const places = ofVoid(name).map(({ bundle }) => page.indexOf(`<strong>${bundle}</strong>`));
      expect(places).toEqual([...places].sort((p, q) => p - q));
      expect(places[0]).toBeGreaterThan(0);
    }
    expect(page).not.toContain(' checked');
    expect(await world.text(`/plans/${serial}`)).toContain(`/plans/${serial}/stowed`);
    expect(await world.text(`/b/${serial}/${first}`)).toContain(`/plans/${serial}/stowed?void=1#void-`);
  });

  describe('tells what goes in next, over all voids', () => {
    const read = readJobValue(trialJobInput());
    const steps = read.ok ? loadingOf(read.value.job, plan) : [];
    const marks = steps.map(({ bundle }) => bundle.bundle);
    const put = (some: string[]) => tick(Object.fromEntries(some.map((mark) => [`in.${numberOf(mark)}`, 'on'])));
    /** Everything from its heading to the void that comes after it. */
    const next = async () =>
      /<h2>Next in<\/h2>([\s\S]*?)<nav/.exec(await world.text(`/plans/${serial}/stowed`))?.[1] ?? '';
    const told = async () => [...(await next()).matchAll(/<strong>([^<]*)<\/strong><\/a>/g)].map(([, mark]) => mark);

    test('from the head of the loading sequence, what is in left out', async () => {
      expect(await told()).toEqual(marks.slice(0, 3));
      await put([marks[0]!, marks[2]!]);
      expect(await told()).toEqual([marks[1], marks[3], marks[4]]);
      await put(marks);
      expect(await next()).toBe('');
    });

    test('with its chocks and its mass off the scale', async () => {
      const words = async () => (await next()).replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
      world.store.weighed.set(serial, new Map([[marks[0]!, 3.21]]), AT);
      expect(await words()).toContain(`${marks[0]} 3.21 kg into V2, run 1, tier 1 ${marks[1]} `);
      // V1 lies over V2 by a little: what trims V2 goes in before that can not be reached.
      expect(await words()).toContain('into V2, run 1, tier 1; then chocks V2/1/1a, V2/1/1b ');
      await put(marks.slice(0, 2));
      expect(await words()).toContain('into V1, run 1, tier 1; then its chock V1/1/1a ');
      await put(marks.slice(0, 3));
      expect(await words()).toContain('into V1, run 1, tier 2; then chocks V1/1/2a, V1/1/2b ');
    });

    test('and what is too heavy for one person by the scale, though not as planned', async () => {
      const { limit } = steps[0]!.bundle;
      expect(await next()).not.toContain('TWO PEOPLE');
      world.store.weighed.set(serial, new Map([[marks[0]!, limit + 0.2]]), AT);
      expect(await next()).toContain(
        `TWO PEOPLE or a mechanical aid: ${(limit + 0.2).toFixed(1)} kg is over the lift limit of ${limit} kg.`,
      );
    });

    test('and the marks to read and the trial before it, until more is in', async () => {
      const last = steps.findIndex(({ lastOfFirst }) => lastOfFirst);
      expect(last).toBeGreaterThan(0);
      expect(await next()).not.toContain('read the marks');
      await put(marks.slice(0, 2));
      expect(await next()).toContain('A quarter is in: read the marks.');
      expect(await next()).toContain(
        `She should float so: ${steps[1]!.floats!.replace(/^[A-Z]/, (first) => first.toLowerCase())}`,
      );
      await put(marks.slice(0, last + 1));
      expect(await next()).toContain('The fixed part is in: go afloat');
      expect(await next()).toContain(`/plans/${serial}/trial`);
      await put([marks[last + 2]!]);
      expect(await next()).not.toContain('go afloat');
    });

    test('on the page of a tag once something is in', async () => {
      expect(await world.text(`/b/${serial}/${marks[0]}`)).not.toContain('Next in');
      await put([marks[0]!]);
      expect(await world.text(`/b/${serial}/${marks[0]}`)).toContain(`data-next="${marks[1]}"`);
    });
  });

  test('keeps a tick with its time once, however often the form is sent; a tick taken away is a mistake', async () => {
    const fields = { [`in.${numberOf(first)}`]: 'on' };
    expect((await tick(fields)).status).toBe(303);
    await tick(fields);
    expect(told()).toEqual([`${first} in`]);
    expect(times()).toEqual([AT]);
    const page = await world.text(`/plans/${serial}/stowed`);
    expect(page.match(/ checked/g)).toHaveLength(1);
    expect(page).toContain(`name="was.${numberOf(first)}"`);
    // A page that was shown before the tick takes nothing away.
    await tick({ [`in.${numberOf(second)}`]: 'on' });
    expect(told()).toEqual([`${first} in`, `${second} in`]);
    await tick({
      [`was.${numberOf(first)}`]: 'on',
      [`was.${numberOf(second)}`]: 'on',
      [`in.${numberOf(second)}`]: 'on',
    });
    expect(told().slice(2)).toEqual([`${first} undone`]);
  });

  test('one that waited for a connection has the time at which it was ticked, if that can be', async () => {
    const [n, m] = [numberOf(first), numberOf(second)];
    await tick({ [`in.${n}`]: 'on', [`ago.${n}`]: '5400000', [`in.${m}`]: 'on', [`ago.${m}`]: '-1' });
    expect(times()).toEqual(['2026-05-04T08:30:00.000Z', AT]);
    const third = numberOf(ofVoid('V1')[2]!.bundle);
    for (const ago of ['99999999999', '1e3', '<b>']) {
      await tick({ [`in.${third}`]: 'on', [`ago.${third}`]: ago });
      expect(times().at(-1)).toBe(AT);
      await tick({ [`was.${third}`]: 'on' });
    }
  });

  test('one that waited does not undo what another wrote of that bundle in the meantime', async () => {
    const n = numberOf(first);
    const at = (time: string, what: 'in' | 'out' | 'undone') =>
      world.store.records.add(serial, [{ bundle: first, what, note: '', at: `2026-05-04T${time}:00.000Z` }]);
    const waited = { [`ago.${n}`]: '5400000' };
    at('08:45', 'in');
    at('09:15', 'out');
    await tick({ [`in.${n}`]: 'on', ...waited });
    expect(told().at(-1)).toBe(`${first} out`);
    at('09:20', 'in');
    await tick({ [`was.${n}`]: 'on', ...waited });
    expect(told().at(-1)).toBe(`${first} in`);
    at('09:25', 'undone');
    at('09:30', 'undone');
    at('09:35', 'undone');
    await tick({ [`in.${n}`]: 'on', ...waited });
    expect(told().at(-1)).toBe(`${first} undone`);
    await tick({ [`in.${n}`]: 'on' });
    expect(told().at(-1)).toBe(`${first} in`);
    // What was written by a clock that was put back since is no measure.
    at('11:00', 'undone');
    await tick({ [`in.${n}`]: 'on' });
    expect(told().at(-1)).toBe(`${first} in`);
  });

  test('of two notes that waited on two phones the later one counts, whichever came first, and none is lost', async () => {
    const n = numberOf(first);
    const says = (note: string, minutes: number) =>
      tick({ [`lies.${n}`]: note, [`said.${n}`]: String(60_000 * minutes), [`told.${n}`]: '' });
    await says('20 mm to port', 30);
    await says('on edge', 90);
    expect(told()).toEqual([`${first} lies 20 mm to port`, `${first} lies on edge`, `${first} lies 20 mm to port`]);
    expect(times()).toEqual(['2026-05-04T09:30:00.000Z', '2026-05-04T08:30:00.000Z', '2026-05-04T09:30:00.000Z']);
    expect(recordIn(recordOf(world.store.records.of(serial)), first).lies).toBe('20 mm to port');
    await says('', 90);
    expect(told()).toHaveLength(3);
    await says('upside down', 10);
    expect(told().slice(3)).toEqual([`${first} lies upside down`]);
  });

  test('a void is ticked whole in one act, and nothing else with it', async () => {
    const answer = await tick({ whole: voidNumber('V2') });
    expect(answer.headers.get('location')).toMatch(/#void-\d+$/);
    expect(told()).toEqual(plan.bundles.filter((own) => own.void === 'V2').map(({ bundle }) => `${bundle} in`));
  });

  test('how a bundle lies otherwise is kept; one too long is told and stays as typed, the ticks are kept', async () => {
    const [n, m] = [numberOf(first), numberOf(second)];
    const long = 'x'.repeat(NOTE_LONGEST + 1);
    const answer = await tick({ [`in.${n}`]: 'on', [`lies.${n}`]: '20 mm <b>to\nport', [`lies.${m}`]: long });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain(long);
    expect(page).toContain('Say it shorter');
    expect(page).toContain('20 mm &lt;b&gt;to port</textarea>');
    expect(told()).toEqual([`${first} in`, `${first} lies 20 mm <b>to port`]);
    // A page shown before does not write over it; one that shows it can take it away.
    await tick({ [`lies.${n}`]: '' });
    expect(told()).toHaveLength(2);
    await tick({ [`lies.${n}`]: '', [`told.${n}`]: '20 mm <b>to port' });
    expect(told()[2]).toBe(`${first} lies`);
  });

  test('one ticked over another that is not is told with which, and kept', async () => {
    const upper = plan.bundles.find((bundle) => plan.bundles.some((low) => restsOn(bundle, low)))!;
    const under = plan.bundles.filter((low) => restsOn(upper, low)).map(({ bundle }) => bundle);
    await tick({ [`in.${numberOf(upper.bundle)}`]: 'on' });
    const says = `${upper.bundle} rests on ${under.join(' and ')}, which`;
    expect(await world.text(`/plans/${serial}/stowed`)).toContain(says);
    expect(await world.text(`/b/${serial}/${upper.bundle}`)).toContain(`It rests on ${under.join(' and ')}`);
    await tick(Object.fromEntries(under.map((bundle) => [`in.${numberOf(bundle)}`, 'on'])));
    expect(await world.text(`/plans/${serial}/stowed`)).not.toContain('rests on');
  });

  test('from the page of a tag one is ticked and led back there', async () => {
    const answer = await tick({ [`in.${numberOf(second)}`]: 'on', back: second });
    expect(answer.headers.get('location')).toBe(`/b/${serial}/${second}`);
    expect(await world.text(`/b/${serial}/${second}`)).toContain('<strong>It is in</strong>');
  });
});

describe('a survey', () => {
  beforeEach(() => tick({ whole: voidNumber('V1') }));

  test('lifts out and puts back, with its day and what was seen; what is out is told with its mass', async () => {
    const last = ofVoid('V1').at(-1)!;
    const page = await world.text(`/plans/${serial}/survey`);
    const places = ofVoid('V1').map(({ bundle }) => page.indexOf(`<strong>${bundle}</strong>`));
    expect(places).toEqual([...places].sort((p, q) => q - p));
    const fields = { [`pick.${numberOf(last.bundle)}`]: 'on', on: '2026-05-03', seen: 'wet, matting gone' };
    // Not before it went in.
    const early = await survey({ ...fields, do: 'out' });
    expect(early.status).toBe(422);
    expect(await early.text()).toContain('was last moved on 2026-05-04');
    const written = await survey({ ...fields, on: '2026-05-04', do: 'out' });
    expect(await world.text(written.headers.get('location')!)).toContain('Written: 1 bundle lifted out.');
    expect(told().at(-1)).toBe(`${last.bundle} out wet, matting gone`);
    const out = await world.text(`/plans/${serial}/survey`);
    expect(out).toContain('Out of her now');
    expect(out).toMatch(new RegExp(`<strong>${last.bundle}</strong>, ${last.mass.toFixed(2).replace(/0+$/, '')} kg`));
    expect(await world.text(`/b/${serial}/${last.bundle}`)).toContain('Lifted out</strong> since 4 May 2026');
    await survey({ [`void.${voidNumber('V1')}`]: 'on', do: 'in' });
    expect(told().at(-1)).toBe(`${last.bundle} in`);
    expect(await world.text(`/plans/${serial}/survey`)).not.toContain('Out of her now');
    expect(await world.text(`/b/${serial}/${last.bundle}`)).toContain('put back');
  });

  test('a whole void at once', async () => {
    await survey({ [`void.${voidNumber('V1')}`]: 'on', [`void.${voidNumber('V2')}`]: 'on', do: 'out', seen: 'dry' });
    const all = ofVoid('V1').length;
    expect(told().filter((line) => line.endsWith('out dry'))).toHaveLength(all);
    expect(await world.text(`/plans/${serial}/survey`)).toContain(`<strong>all ${all} bundles of V1</strong>`);
    const taken = { [`void.${voidNumber('V1')}`]: 'on', do: 'undone', entries: String(told().length) };
    await survey(taken);
    // Pressed twice it does not take back the stowing as well.
    const twice = await survey(taken);
    expect(twice.status).toBe(422);
    expect(await twice.text()).toContain('The record was written to since this page was shown');
    expect(told().filter((line) => line.endsWith('undone'))).toHaveLength(all);
    expect(await world.text(`/plans/${serial}/survey`)).not.toContain('Out of her now');
  });

  test('every bundle moved after the day is told, and what is taken back is of the day on which that is said', async () => {
    const both = { [`pick.${numberOf(first)}`]: 'on', [`pick.${numberOf(second)}`]: 'on' };
    const page = await (await survey({ ...both, on: '2026-05-01', do: 'out' })).text();
    expect(page).toContain(`${[first, second].join(', ')} were last moved on 2026-05-04, after that day.`);
    await survey({ [`pick.${numberOf(first)}`]: 'on', on: '2026-05-01', do: 'undone' });
    expect(told().at(-1)).toBe(`${first} undone`);
    expect(times().at(-1)).toBe(AT);
  });

  test('every fault is told at once with what to do, nothing is written, and all stays as typed', async () => {
    const before = told().length;
    const out = ofVoid('V2')[0]!.bundle;
    const answer = await survey({
      [`pick.${numberOf(out)}`]: 'on',
      on: '31/4/<i>',
      seen: `rust <b>${'y'.repeat(NOTE_LONGEST)}`,
      do: 'out',
    });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page.match(/class="remedy"/g)).toHaveLength(3);
    expect(page.match(/aria-invalid="true" aria-describedby="survey-fault"/g)).toHaveLength(2);
    expect(page).toContain(`${out} is not in by the record`);
    expect(page).toContain('rust &lt;b&gt;');
    expect(page).toContain('31/4/&lt;i&gt;');
    expect(page).toMatch(new RegExp(`name="pick.${numberOf(out)}" checked`));
    for (const on of ['2026-02-30', '2027-01-01', '٢٠٢٦-01-01'])
      expect((await survey({ [`pick.${numberOf(first)}`]: 'on', on, do: 'out' })).status, on).toBe(422);
    for (const act of ['out', 'in', 'seen', 'undone', '__proto__', 'constructor'])
      expect((await survey({ do: act })).status, act).toBe(422);
    for (const act of ['seen', 'constructor'])
      expect((await survey({ do: act, [`pick.${numberOf(first)}`]: 'on' })).status, act).toBe(422);
    expect(told()).toHaveLength(before);
  });
});

describe('what the record says', () => {
  test('stands on the register and in the tables only where there is one', async () => {
    expect(await register()).not.toContain('By the record');
    expect(await register()).toContain('Changes since');
    await tick({ whole: voidNumber('V1'), [`lies.${numberOf(first)}`]: 'a hand to port' });
    await survey({ [`pick.${numberOf(second)}`]: 'on', seen: 'bands gone', do: 'out' });
    const words = await register();
    const count = ofVoid('V1').length;
    expect(words).toContain('By the record, last written to on 2026-05-04');
    expect(words).toContain(`In her: ${count - 1} of ${plan.bundles.length} bundles`);
    expect(words).toContain(`LIFTED OUT AND NOT PUT BACK: ${second}; ${plan.bundles[numberOf(second)]!.mass} kg`);
    expect(words).toContain(`V1: 2026-05-04 all ${count} bundles stowed.`);
    expect(words).toContain(`${second} lifted out, “bands gone”.`);
    expect(words).toContain('What holds down V1 was loosened');
    expect(words).toContain(`${first} lies otherwise than planned, “a hand to port”.`);
    expect(words).toContain('Changes since');
    const rows = (await world.text(`/plans/${serial}/tables/bundles.csv`)).split('\r\n').map((row) => row.split(','));
    const tail = (bundle: string) => rows.find((row) => row[0] === bundle)!.slice(-4, -1);
    const [at] = world.store.records.of(serial).map((entry) => entry.at);
    expect(tail(first)).toEqual(['in', at, 'a hand to port']);
    expect(tail(second)).toEqual(['out', at, '']);
    expect(tail(ofVoid('V2')[0]!.bundle)).toEqual(['', '', '']);
    const record = (await world.text(`/plans/${serial}/tables/record.csv`)).trim().split('\r\n');
    expect(record).toHaveLength(count + 3);
    expect(record.at(-1)).toContain('lifted out,bands gone');
  });

  test('belongs to its plan: the others of the job lead to it and say so', async () => {
    await tick({ [`in.${numberOf(first)}`]: 'on' });
    const newer = planned(JSON.stringify({ ...plan, seed: 7 }));
    expect(world.store.records.of(newer)).toEqual([]);
    for (const page of [`/plans/${newer}/stowed`, `/plans/${newer}/survey`, `/b/${newer}/${first}`, `/plans/${newer}`])
      expect(await world.text(page)).toContain(`href="/plans/${serial}/stowed"`);
    expect(await world.text(`/plans/${newer}/stowed`)).toContain('A record belongs to its plan');
    const said = `What was stowed by plan ${serial} of this job is in the record of that plan`;
    expect(await register(newer)).toContain(said);
    expect(await register()).not.toContain(said);
    expect(await world.text(`/plans/${serial}/stowed`)).toContain(`tags of plan ${serial} no longer hold`);
  });

  test('is where what is left begins: whole voids are ticked, runs stowed in part are told and stay', async () => {
    await tick({
      whole: voidNumber('V2'),
      [`in.${numberOf(first)}`]: 'on',
      [`lies.${numberOf(first)}`]: 'askew',
    });
    const page = await world.text(`/plans/${serial}/left`);
    expect(page).toContain(`${first}: “askew”`);
    expect(page).toContain(`name="stowed.${voidNumber('V2')}" checked`);
    expect(page).not.toContain(`name="stowed.${voidNumber('V1')}" checked`);
    expect(page).toContain('V1 is stowed in part:</strong> 1 of');
    expect(page).toContain('is begun:</strong>');
    expect(page).toContain('Finish it by this plan</strong> with');
    const left = async (fields: Record<string, string>) => {
      const answer = await world.post(`/plans/${serial}/left`, { cut: 'all', ...fields });
      return world.text(answer.headers.get('location')!);
    };
    const run = plan.bundles[numberOf(first)]!.run;
    const stays = ofVoid('V1').some((bundle) => bundle.run !== run) ? `run ${run}` : 'bundles';
    expect(await left({ [`part.${voidNumber('V1')}`]: 'on' })).toContain(`${stays} of plan ${serial}, to be finished:`);
    const asItStands = { [`part.${voidNumber('V1')}`]: 'on', [`begun.${voidNumber('V1')}`]: 'left' };
    expect(await left(asItStands)).toContain('stowed in part and left so, without');
    expect(await left({ [`stowed.${voidNumber('V2')}`]: 'on' })).not.toContain('to be finished:');
  });
});

test('hostile fields change nothing, never a defect', async () => {
  const hostile: Record<string, string>[] = [
    { 'in.99999': 'on', 'in.-1': 'on', 'in.__proto__': 'on', 'in[0]': 'on' },
    { whole: '__proto__', keep: '"><script>alert(1)</script>' },
    { whole: '999' },
    { back: '//elsewhere.example' },
    { 'lies.0': '\u0000\u0007', 'told.0': '' },
  ];
  for (const fields of hostile) {
    const answer = await tick(fields);
    expect(answer.status).toBe(303);
    expect(answer.headers.get('location')).not.toMatch(/elsewhere|script/);
  }
  expect(told()).toEqual([]);
  for (const page of ['stowed', 'survey']) {
    expect((await world.get(`/plans/${serial}/${page}?void[]=2&void[x]=1&saved=<b>`)).status).toBe(200);
    expect((await world.post(`/plans/99/${page}`, { 'in.0': 'on' })).status).toBe(404);
    expect((await world.post(`/plans/${serial}/${page}`, { token: 'x' })).status).toBe(403);
  }
  expect(world.log.filter((line) => line.level === 'error')).toEqual([]);
});
