import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { readCutList } from '../../src/job/cutlist.ts';
import { readJob, readJobValue } from '../../src/job/readJob.ts';
import { FILE_KINDS, type FileKind, fileSchema } from '../../src/plan/fileSchema.ts';
import { planJob } from '../../src/plan/planner.ts';
import { readPlan } from '../../src/plan/readPlan.ts';
import { randomJob } from '../bench/jobs.ts';
import { exampleNames, exampleText } from '../examples.ts';
import { trialJobInput, trialPair } from './trialPlan.ts';

const FIXTURES = new URL('../../fixtures/', import.meta.url);
const fixtures = readdirSync(FIXTURES).filter((name) => name.endsWith('.json'));
const fixture = (name: string): string => readFileSync(new URL(name, FIXTURES), 'utf8');

const valid = Object.fromEntries(
  FILE_KINDS.map((kind) => [kind, new Ajv2020({ allErrors: true }).compile(JSON.parse(fileSchema(kind)))]),
) as Record<FileKind, ValidateFunction>;

const FULL_LIST = {
  stock: [
    { length: 6000, count: null, price: 12.5, spoiled: [{ from: 100, to: 140 }] },
    { length: 3000, count: 4, price: 7 },
  ],
  pieces: [{ length: 470, count: 34, mark: 'A', weight: 2 }, { length: 310.01 }],
  saw: { kerf: 3, squaring: 8 },
};

/** Where the schema finds something wrong with a value, once it has been through JSON as a file has. */
function wrong(kind: FileKind, value: unknown): string[] {
  valid[kind](JSON.parse(JSON.stringify(value)));
  return [...new Set((valid[kind].errors ?? []).map((error) => error.instancePath))];
}

describe('by the printed schema', () => {
  it.each(fixtures)('the fixture %s is a job', (name) => {
    expect(wrong('job', JSON.parse(fixture(name)))).toEqual([]);
  });

  it('jobs with any of the optional fields are jobs', () => {
    for (let seed = 1; seed <= 60; seed++) expect(wrong('job', randomJob(seed)), `seed ${seed}`).toEqual([]);
    expect(wrong('job', trialJobInput())).toEqual([]);
  });

  it('plans are plans: one with joints, and one told to the end', async () => {
    expect(wrong('plan', trialPair().plan)).toEqual([]);
    const read = readJob(fixture('short-of-steel.json'));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const result = await planJob(read.value.job, { effort: 'quick', seed: 1, jobDigest: read.value.digest });
    if (result.kind !== 'plan') throw new Error('nothing is placed');
    expect(result.plan.choice?.length).toBeGreaterThan(0);
    expect(wrong('plan', result.plan)).toEqual([]);
  });

  it.each(exampleNames())('%s of the format page is job and plan', (name) => {
    expect(wrong('job', JSON.parse(exampleText(`${name}.job.json`)))).toEqual([]);
    expect(wrong('plan', JSON.parse(exampleText(`${name}.plan.json`)))).toEqual([]);
  });

  it.each([
    ['a number as text', { length: '1000' }, '/voids/0/length'],
    ['a negative length', { length: -1 }, '/voids/0/length'],
    ['a field that nobody knows', { lenght: 1000 }, '/voids/0'],
    ['a name of spaces', { void: '  ' }, '/voids/0/void'],
    ['a keep-out of one end', { keepOut: [{ along: [0], across: [0, 1], up: [0, 1] }] }, '/voids/0/keepOut/0/along'],
  ])('%s is wrong in a job, as it is for kentledge itself', (_, change, at) => {
    const job = JSON.parse(JSON.stringify(trialJobInput()));
    Object.assign(job.voids[0], change);
    expect(wrong('job', job)).toEqual([at]);
    expect(readJobValue(job).ok).toBe(false);
  });

  it.each([
    ['the least that one must have', { stock: [{ length: 6000 }], pieces: [{ length: 470 }] }],
    ['one with every field', FULL_LIST],
    ['one in fractions of an inch', { ...FULL_LIST, saw: { kerf: 2.38125 } }],
  ])('a cut list is a cut list: %s', (_, list) => {
    const written = { format: 'kentledge-cutlist/1', ...list };
    expect(wrong('cutlist', written)).toEqual([]);
    expect(readCutList(JSON.stringify(written)).ok).toBe(true);
  });

  it.each([
    ['a number as text', { pieces: [{ length: '470' }] }, '/pieces/0/length'],
    ['a negative count', { stock: [{ length: 6000, count: -1 }] }, '/stock/0/count'],
    ['a field that nobody knows', { pieces: [{ lenght: 470, length: 470 }] }, '/pieces/0'],
    ['no stock at all', { stock: [] }, '/stock'],
    ['a kerf wider than any saw', { saw: { kerf: 101 } }, '/saw/kerf'],
    ['a spoiled span without its end', { stock: [{ length: 6000, spoiled: [{ from: 10 }] }] }, '/stock/0/spoiled/0'],
  ])('%s is wrong in a cut list, as it is for kentledge itself', (_, change, at) => {
    const list = { format: 'kentledge-cutlist/1', ...FULL_LIST, ...change };
    expect(wrong('cutlist', list)).toEqual([at]);
    expect(readCutList(JSON.stringify(list)).ok).toBe(false);
  });

  it('a plan without its slots is wrong, as it is for kentledge itself', () => {
    const plan = structuredClone(trialPair().plan) as { bundles: { slots?: unknown }[] };
    delete plan.bundles[1]!.slots;
    expect(wrong('plan', plan)).toEqual(['/bundles/1']);
    expect(readPlan(JSON.stringify(plan)).ok).toBe(false);
  });
});

describe('the printed schema', () => {
  type Node = { description?: string; type?: string; properties?: Record<string, Node>; [key: string]: unknown };

  /** Every named number in the schema that says nothing of itself. */
  function silent(node: Node, path = ''): string[] {
    const inside = [node.items, ...((node.oneOf ?? node.prefixItems ?? []) as unknown[])];
    return [
      ...Object.entries(node.properties ?? {}).flatMap(([name, field]) => [
        ...(field.type === 'number' && !field.description ? [`${path}${name}`] : []),
        ...silent(field, `${path}${name}.`),
      ]),
      ...inside.flatMap((one) => (typeof one === 'object' && one !== null ? silent(one as Node, path) : [])),
    ];
  }

  it.each(FILE_KINDS)(
    'of a %s begins with units, and axes where there are places, and every number has its unit or its meaning',
    (kind) => {
      const schema = JSON.parse(fileSchema(kind)) as Node;
      expect(Object.keys(schema).slice(0, 3)).toEqual(['$schema', 'title', 'description']);
      expect(schema.description).toMatch(
        kind === 'cutlist' ? /Lengths mm/ : /Lengths mm, masses kg[\s\S]*x forward[\s\S]*`across`/,
      );
      expect(silent(schema)).toEqual([]);
    },
  );

  it('of a job asks for no more than a job must have', () => {
    const schema = JSON.parse(fileSchema('job')) as Node;
    expect(schema.required).toEqual(['format', 'name', 'pile', 'voids']);
    expect(schema.properties!.voids!.items).toMatchObject({ required: ['void', 'length', 'width', 'height'] });
  });
});
