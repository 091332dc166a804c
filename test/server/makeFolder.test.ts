/** Folders that can not be made are refused, and nobody waits for ever. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { makeFolder } from '../../server/makeFolder.ts';

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

test.runIf(existsSync('/proc/self'))('serving from where no folder can be made is refused with what to do', () => {
  const args = ['--import', 'tsx', 'server/cli.ts', 'serve', '--port', '0', '--data', '/proc/kentledge/data'];
  const { status, stderr } = spawnSync(process.execPath, args, {
    encoding: 'utf8',
    timeout: 20_000,
    killSignal: 'SIGKILL',
  });
  expect({ status, stderr }).toEqual({
    status: 2,
    stderr: '/proc/kentledge: can not be made: no folder can be made there. Give another path.\n',
  });
});
