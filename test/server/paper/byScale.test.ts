/** What is carried, lifted and stowed by goes by the scale where there is one, and says which is which. */
import { describe, expect, test } from 'vitest';
import { CSV_TABLES, csvOf } from '../../../server/paper/csv.ts';
import { PAPERS } from '../../../server/paper/papers.ts';
import { byScale } from '../../../src/balance/byScale.ts';
import { loadingOf } from '../../../src/balance/loading.ts';
import { meanwhile } from '../../../src/balance/meanwhile.ts';
import { centreOf, weightsByVoid } from '../../../src/balance/moments.ts';
import { laidVoid } from '../../../src/drawing/laid.ts';
import { accessOf } from '../../../src/plan/access.ts';
import { bearerLoads } from '../../../src/plan/bearing.ts';
import { fixed } from '../../../src/units.ts';
import { fittedPair } from './fittedPlan.ts';
import { outside, overlapping, textOf } from './readPdf.ts';
import { read } from './writePaper.ts';

const { job, plan } = fittedPair();
const vessel = {
  ...job.vessel,
  displacement: 4000,
  kgPerCm: 130,
  kgmPerCm: 60,
  waterlineLength: 8,
  beam: 2.4,
  lcf: 3.8,
};
const afloat = { ...job, vessel };
const own = plan.bundles.filter((bundle) => bundle.void === 'V1').sort((p, q) => p.order - q.order);
/** Every second bundle of V1 was weighed, and came out heavier by a figure that no planned mass has. */
const weighed = new Map(own.filter((_, i) => i % 2 === 0).map(({ bundle, mass }) => [bundle, mass + 1.37]));
const all = new Map(plan.bundles.map(({ bundle, mass }) => [bundle, mass + 1.37]));
const scaled = byScale(afloat, plan, weighed);
const told = (value: number, decimals = 2) => String(Number(value.toFixed(decimals)));
const sum = (some: readonly { mass: number }[]) => some.reduce((whole, { mass }) => whole + mass, 0);

async function said(file: string, masses: ReadonlyMap<string, number> = weighed): Promise<string> {
  const pages = await read(file, afloat, plan, { weighed: masses });
  expect(overlapping(pages), file).toEqual([]);
  expect(outside(pages), file).toEqual([]);
  return textOf(pages).replace(/\s+/g, ' ');
}

const NOTE = 'go by the scale where a bundle was weighed (“scale”), by the plan where it was not (“plan”).';
const ALL = 'Every bundle here was weighed: masses, and what follows from them, go by the scale.';

describe('where some bundles were weighed', () => {
  test('an access card has the masses off the scale, their sum, and how she floats without them', async () => {
    const text = await said('access-cards.pdf');
    const cards = accessOf(afloat, scaled, 100).filter(({ bundles }) => bundles.length > 0);
    expect(cards.length).toBeGreaterThan(0);
    for (const { bundles, mass } of cards) {
      expect(text).toContain(`Break out ${bundles.length} bundles, ${told(mass, 1)} kg, `);
      expect(text).toContain(meanwhile(afloat, scaled, bundles));
      for (const { bundle, order, mass: each } of bundles)
        expect(text).toMatch(
          new RegExp(`${bundle} ${order} ${told(each)}0* kg ${weighed.has(bundle) ? 'scale' : 'plan'} `),
        );
    }
    const marks = cards.flatMap(({ bundles }) => bundles.map(({ bundle }) => weighed.has(bundle)));
    expect(new Set(marks)).toEqual(new Set([true, false]));
  });

  test('the loading sequence keeps its planned order and counts up what the scale said', async () => {
    const text = await said('stowage.pdf');
    expect(text).toContain(NOTE);
    const steps = loadingOf(afloat, plan);
    let aboard = 0;
    for (const [i, { bundle }] of steps.entries()) {
      const mass = weighed.get(bundle.bundle) ?? bundle.mass;
      aboard += mass;
      const by = weighed.has(bundle.bundle) ? 'scale' : 'plan';
      expect(text).toMatch(
        new RegExp(
          `${i + 1} ${bundle.bundle} ${bundle.void} run ${bundle.run}, tier ${bundle.tier}(, then chocks)? ${bundle.order} ${told(mass)}0* kg ${by} ${told(aboard, 1)}(\\.0)? kg`,
        ),
      );
    }
    expect(aboard - sum(plan.bundles)).toBeCloseTo(1.37 * weighed.size, 6);
  });

  test('the order in, the sum and centre of the void and what its bearers carry go by the scale', async () => {
    const text = await said('stowage.pdf');
    for (const { bundle, order, mass } of scaled.bundles.filter((each) => each.void === 'V1'))
      expect(text).toMatch(
        new RegExp(`${order} ${bundle} ${told(mass)}0* kg ${weighed.has(bundle) ? 'scale' : 'plan'} `),
      );
    expect(text).toContain(
      `${own.length} bundles, ${told(sum(own) + 1.37 * weighed.size, 1)} kg, ${weighed.size} of them by the scale, the rest as planned.`,
    );
    const centre = centreOf(weightsByVoid(afloat, scaled).get('V1')!)!;
    expect(text).toContain(`Centre x ${told(centre.x)}, y ${told(centre.y)}, z ${told(centre.z)} m.`);
    for (const { along, width, load } of bearerLoads(laidVoid(afloat.voids[0]!, plan), scaled))
      expect(text).toContain(`at ${along} (${width} wide) ${told(load, 1)} kg`);
  });
});

/** A table of the plan without its head. */
function rowsOf(file: string, masses: ReadonlyMap<string, number>): Record<string, string>[] {
  const table = CSV_TABLES.find((each) => each.file === file)!;
  const rows = csvOf(table, afloat, plan, masses).slice(1).trimEnd().split('\r\n');
  // No cell of these columns holds a comma; those that may are before none of them.
  return rows.slice(1).map((row) => {
    const cells = row.replaceAll(/"[^"]*"/g, '').split(',');
    return Object.fromEntries(table.heads.map((head, n) => [head, cells[n]!]));
  });
}

const by = (bundle: string) => (weighed.has(bundle) ? 'scale' : 'plan');
const massNow = (bundle: { bundle: string; mass: number }) => weighed.get(bundle.bundle) ?? bundle.mass;

describe('other papers and tables', () => {
  test('what is broken out is told by the scale, line by line', async () => {
    const text = await said('breaking-out.pdf');
    expect(text).toContain(
      `${told(sum(scaled.bundles), 1)} kg, ${weighed.size} of them by the scale, the rest as planned.`,
    );
    for (const one of plan.bundles)
      expect(text).toMatch(
        new RegExp(`${one.bundle} ${one.void} .{1,90}? ${told(massNow(one))}0* kg ${by(one.bundle)} `),
      );
  });

  test('tags, tag list, bundle sheet and try-first sheet', async () => {
    const tags = await said('tags.pdf');
    const list = await said('tag-list.pdf');
    const sheet = await said('bundle-sheet.pdf');
    expect(tags.split('mass off the scale')).toHaveLength(weighed.size + 1);
    expect(list).toContain(NOTE);
    expect(sheet).toContain('What was weighed already is filled in.');
    for (const one of plan.bundles) {
      const mass = `${told(massNow(one))} kg`;
      expect(tags).toContain(mass);
      expect(list).toContain(`${one.bundle} ${mass} ${by(one.bundle)} `);
      // What it must weigh stays what was reckoned, with its tolerance: that is what the scale is held against.
      expect(sheet).toContain(`${told(one.mass)} kg ± `);
      if (weighed.has(one.bundle)) expect(sheet).toContain(mass);
    }
    const first = await said('try-first.pdf', all);
    expect(first).toMatch(/ kg by the scale\. Tied:/);
    expect(await said('try-first.pdf', new Map())).not.toContain('by the scale');
  });

  test('the register adds up what is in each void now, and tells where its centre then is', async () => {
    const text = await said('ballast-register.pdf');
    const now = scaled.voids.find((entry) => entry.void === 'V1')!;
    expect(now.mass).toBeCloseTo(sum(own) + 1.37 * weighed.size, 2);
    expect(text).toContain(`${now.mass.toFixed(2)} kg ${now.centre!.x.toFixed(3)} ${now.centre!.y.toFixed(3)}`);
    expect(text).toContain('the centres are those of the masses now');
    expect(text).toContain(`${sum(scaled.bundles).toFixed(2)} kg`);
  });

  test('tables', () => {
    const loading = rowsOf('loading.csv', weighed);
    expect(loading.map((row) => row.bundle)).toEqual(loadingOf(afloat, plan).map(({ bundle }) => bundle.bundle));
    for (const row of loading) {
      const one = plan.bundles.find(({ bundle }) => bundle === row.bundle)!;
      expect(Number(row['mass kg'])).toBeCloseTo(massNow(one), 3);
      expect(row['mass by']).toBe(by(one.bundle));
    }
    expect(Number(loading.at(-1)!['aboard kg'])).toBeCloseTo(sum(scaled.bundles), 2);
    for (const row of rowsOf('bundles.csv', weighed)) {
      const one = plan.bundles.find(({ bundle }) => bundle === row.bundle)!;
      expect(Number(row['planned mass kg'])).toBeCloseTo(one.mass, 3);
      expect(Number(row['mass now kg'])).toBeCloseTo(massNow(one), 3);
    }
    for (const row of rowsOf('voids.csv', weighed)) {
      const here = (bundles: typeof plan.bundles) => sum(bundles.filter((one) => one.void === row.void));
      expect(Number(row['planned mass kg'])).toBeCloseTo(here(plan.bundles), 2);
      expect(Number(row['mass now kg'])).toBeCloseTo(here(scaled.bundles), 2);
    }
  });

  test('a void, a run or a bearer past its most, and a bundle over the limit, is told where it is stowed by', async () => {
    const [first, ...rest] = afloat.voids;
    const most = Math.ceil(sum(own));
    const limited = { ...afloat, voids: [{ ...first!, most }, ...rest] };
    const heavy = new Map([[own[0]!.bundle, own[0]!.limit + 1]]);
    const text = textOf(await read('stowage.pdf', limited, plan, { weighed: heavy })).replace(/\s+/g, ' ');
    const lines = [
      `Weighed over the lift limit of its void: ${own[0]!.bundle} ${told(own[0]!.limit + 1)} kg, limit ${own[0]!.limit} kg.`,
      `V1 holds ${told(sum(own) - own[0]!.mass + own[0]!.limit + 1)} kg, `,
    ];
    // On the loading sequence, and on the sheet of the void.
    for (const line of lines) expect(text.split(line), line).toHaveLength(3);
    const several = new Map(own.slice(0, 3).map(({ bundle, limit }, i) => [bundle, limit + 1 + i]));
    expect(await said('stowage.pdf', several)).toContain(
      `Weighed over the lift limit of its void: V1-01 to V1-03 up to ${told(own[2]!.limit + 3)} kg, limit ${own[0]!.limit} kg.`,
    );
  });
});

describe('a plan by the scale', () => {
  test('only what was weighed is changed, and what follows from it', () => {
    expect(byScale(job, plan, new Map())).toBe(plan);
    expect(byScale(job, plan, new Map([['no such bundle', 5]]))).toBe(plan);
    const [v1, ...others] = scaled.voids;
    expect(others).toEqual(plan.voids.slice(1));
    expect(v1!.centre).not.toEqual(plan.voids[0]!.centre);
    const weights = [...weightsByVoid(afloat, scaled).values()].flat();
    for (const axis of ['x', 'y', 'z'] as const) expect(scaled.centre![axis]).toBeCloseTo(centreOf(weights)![axis], 4);
    expect(scaled.totals).toBe(plan.totals);
    expect(scaled.bundles.map(({ order }) => order)).toEqual(plan.bundles.map(({ order }) => order));
  });
});

test('all weighed: it is said once, without a column', async () => {
  for (const file of ['stowage.pdf', 'tag-list.pdf']) {
    const text = await said(file, all);
    expect(text).toContain(ALL);
    expect(text).not.toMatch(/ kg (scale|plan) /);
  }
  expect(await said('stowage.pdf', all)).toContain(
    `${own.length} bundles, ${fixed(byScale(afloat, plan, all).voids[0]!.mass, 1)} kg by the scale.`,
  );
  expect(await said('breaking-out.pdf', all)).toContain(' kg by the scale.');
});

test('nothing weighed: nothing is said of a scale, and no column for it', async () => {
  for (const { file } of PAPERS)
    expect(await said(file, new Map()), file).not.toMatch(
      / kg (scale|plan) |by the scale|kg as planned|was not weighed|off the scale/,
    );
});
