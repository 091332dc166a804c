/** Folders that can not be made are refused, and nobody waits for ever. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { makeFolder } from '../../server/makeFolder.ts';
import { runProgram } from '../../server/program.ts';
import { planJob } from '../../src/plan/planner.ts';
import { Capture } from './capture.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kentledge-made-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

test('a folder is made with all that are missing above it, and one that is there is left as it is', () => {
  const deep = join(folder, 'one', 'two', 'three');
  makeFolder(deep);
  writeFileSync(join(deep, 'kept'), '');
  makeFolder(deep);
  expect(existsSync(join(deep, 'kept'))).toBe(true);
});

test('a file in the way is told by its path', () => {
  const file = join(folder, 'file');
  writeFileSync(file, '');
  expect(() => makeFolder(file)).toThrow(expect.objectContaining({ code: 'EEXIST', path: file }));
  const below = join(file, 'below');
  expect(() => makeFolder(below)).toThrow(expect.objectContaining({ code: 'ENOTDIR', path: below }));
});

test.runIf(existsSync('/proc/self'))(
  'serving from where no folder can be made is refused with what to do',
  async () => {
    const data = '/proc/kentledge/data';
    // In a process of its own first: who tries for ever is ended.
    const script = `import { makeFolder } from './server/makeFolder.ts'; makeFolder('${data}');`;
    const args = ['--import', 'tsx', '--input-type=module', '-e', script];
    const { status } = spawnSync(process.execPath, args, { stdio: 'ignore', timeout: 20_000, killSignal: 'SIGKILL' });
    expect(status).toBe(1);
    const [out, err] = [new Capture(), new Capture()];
    const before = process.exitCode;
    const answer = await runProgram(['serve', '--port', '0', '--data', data], out, err, planJob);
    process.exitCode = before;
    expect(answer).toBe(2);
    expect(err.text).toBe('/proc/kentledge: can not be made: no folder can be made there. Give another path.\n');
  },
);
