import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { runProgram } from '../../server/program.ts';
import { planJob } from '../../src/plan/planner.ts';
import { Capture } from './capture.ts';

const fixture = (name: string): string => fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));

let code: typeof process.exitCode;
beforeEach(() => {
  code = process.exitCode;
  process.exitCode = undefined;
});
afterEach(() => {
  process.exitCode = code;
});

async function kentledge(...args: string[]) {
  const [out, err] = [new Capture(), new Capture()];
  const status = await runProgram(args, out, err, planJob);
  return { status, out: out.text, err: err.text };
}

describe('exit statuses of the command line', () => {
  test('0 for help and version', async () => {
    expect(await kentledge('--version')).toMatchObject({ status: 0, out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/) });
    const { status, out } = await kentledge('help');
    expect(status).toBe(0);
    for (const command of ['plan', 'cut', 'check', 'schema', 'lift', 'serve']) expect(out).toContain(`  ${command}`);
  });

  test.each([
    [['plan', fixture('none.json')], 'none.json: no such file'],
    [['plan', fixture('')], `${fixture('')}: is a folder. Give the path of a file.`],
    [['cut', fixture('')], `${fixture('')}: is a folder.`],
    [['check', fixture('bogbean.json'), fixture('')], `${fixture('')}: is a folder.`],
    [['plan', fixture('bogbean.json'), '--effort', 'mighty'], 'quick, steady, thorough'],
    [['plan', fixture('bogbean.json'), '--stops', '0'], 'whole number from 1, or free'],
    [['plan', fixture('bogbean.json'), '--seed', '1.5'], 'whole number from 0'],
    [['plan', fixture('bogbean.json'), '--base', 'javascript:alert(1)'], 'http://'],
    [['plan', fixture('bogbean.json'), '--speed'], "unknown option '--speed'"],
    [['cut', fixture('bogbean.json'), '--seconds', '86401'], 'more than 0 and at most 86400'],
    [['schema', 'pile'], 'Allowed choices are job, plan, cutlist.'],
    [['plan'], "missing required argument 'job'"],
    [['reckon'], "unknown command 'reckon'"],
  ])('2 for what is refused, told in words: %j', async (args, words) => {
    const { status, out, err } = await kentledge(...args);
    expect(status).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(words);
    expect(err).not.toMatch(/\n\s+at /);
  });

  test('every argument that is wrong is told at once', async () => {
    const told = async (...args: string[]) => {
      const { status, out, err } = await kentledge(...args);
      expect([status, out]).toEqual([2, '']);
      return err.split('\n').slice(0, -2);
    };
    const wrong = [
      '--effort',
      'mighty',
      '--stops',
      '0',
      '--seed',
      '1.5',
      '--paper',
      'a3',
      '--tags',
      'x',
      '--base',
      'b',
    ];
    const plan = await told('plan', fixture('bogbean.json'), ...wrong);
    expect(plan).toHaveLength(6);
    for (const option of ['--effort', '--stops', '--seed', '--paper', '--tags', '--base'])
      expect(plan.filter((line) => line.startsWith(`error: option '${option} `))).toHaveLength(1);
    expect(await told('lift', '--twist', 'x', '--end', 'y', '--grip', 'soft', '--frob')).toEqual([
      "error: required option '--reach <mm>' not specified",
      "error: option '--twist <deg>' argument 'x' is invalid. Give a number from 0 to 180.",
      "error: option '--end <mm>' argument 'y' is invalid. Give a number from -10000 to 10000.",
      "error: option '--grip <grip>' argument 'soft' is invalid. Allowed choices are good, fair, poor.",
      "error: required option '--start <mm>' not specified",
      "error: unknown option '--frob'",
    ]);
    expect(await told('lift', '--start', 'x', '--reach', '1', '--end')).toEqual([
      "error: option '--end <mm>' argument missing",
      "error: option '--start <mm>' argument 'x' is invalid. Give a number from -10000 to 10000.",
    ]);
    expect(await told('cut', 'list.json', '--frob', '--knob', '--seconds', '0')).toHaveLength(3);
  });
});
