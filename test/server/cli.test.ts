import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { runProgram } from '../../server/program.ts';
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
  const status = await runProgram(args, out, err);
  return { status, out: out.text, err: err.text };
}

describe('exit statuses of the command line', () => {
  test('0 for help and version', async () => {
    expect(await kentledge('--version')).toMatchObject({ status: 0, out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/) });
    const { status, out } = await kentledge('help');
    expect(status).toBe(0);
    for (const command of ['plan', 'cut', 'check', 'lift', 'serve']) expect(out).toContain(`  ${command}`);
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
    [['plan'], "missing required argument 'job'"],
    [['reckon'], "unknown command 'reckon'"],
  ])('2 for what is refused, told in words: %j', async (args, words) => {
    const { status, out, err } = await kentledge(...args);
    expect(status).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(words);
    expect(err).not.toMatch(/\n\s+at /);
  });
});
