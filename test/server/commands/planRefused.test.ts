import { mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PaperChoice } from '../../../server/commands/paperOptions.ts';
import { type PlanCommandOptions, runPlan } from '../../../server/commands/plan.ts';
import { EXIT } from '../../../server/exit.ts';
import { Capture } from '../capture.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'kentledge-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const FINE = {
  format: 'kentledge-job/1',
  name: 'Test',
  pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2000, count: 4 }],
  voids: [{ void: 'V1', length: 1000, width: 300, height: 150 }],
};

/** Runs the command with a planner that must not be reached. */
async function refusal(
  text: string | Uint8Array,
  choice: PaperChoice = {},
): Promise<{ status: number; err: string; out: string }> {
  const file = path.join(folder, 'job.json');
  await writeFile(file, text);
  const [out, err] = [new Capture(), new Capture()];
  const options: PlanCommandOptions = { out: path.join(folder, 'out'), effort: 'quick', seed: 1, ...choice };
  const status = await runPlan(file, options, {
    out,
    err,
    plan: () => Promise.reject(new Error('a refused job was planned')),
    now: () => new Date(0),
    onInterrupt: () => () => {},
  });
  return { status, err: err.text, out: out.text };
}

describe('a job that is refused', () => {
  const cases: [string, string | Uint8Array, RegExp[]][] = [
    ['malformed JSON', '{ "format": "kentledge-job/1", "name": ', [/Line 1, column \d+/]],
    ['nothing at all', '', [/empty/]],
    ['JSON that is no object', '[1, 2]', [/holds no job/]],
    ['bytes that are no text', new Uint8Array([0xff, 0xfe, 0x00, 0x80]), [/JSON|UTF-8/]],
    [
      'a void 1.2 long',
      JSON.stringify({ ...FINE, voids: [{ ...FINE.voids[0], length: 1.2 }] }),
      [/voids\[0\]\.length/, /[Dd]id you mean 1200/],
    ],
    [
      'a number given as text',
      JSON.stringify({ ...FINE, voids: [{ ...FINE.voids[0], length: '1000' }] }),
      [/voids\[0\]\.length/],
    ],
    ['an empty pile', JSON.stringify({ ...FINE, pile: [] }), [/pile/]],
    ['no voids', JSON.stringify({ ...FINE, voids: [] }), [/voids/]],
    [
      'a tube with more wall than tube',
      JSON.stringify({ ...FINE, pile: [{ ...FINE.pile[0], section: { shape: 'tube', diameter: 20, wall: 12 } }] }),
      [/pile\[0\]\.section\.wall/],
    ],
    [
      'a bar of negative length',
      JSON.stringify({ ...FINE, pile: [{ ...FINE.pile[0], length: -5 }] }),
      [/pile\[0\]\.length/],
    ],
    [
      'a spoiled span outside its bar',
      JSON.stringify({ ...FINE, pile: [{ ...FINE.pile[0], spoiled: [{ from: 1900, to: 2600 }] }] }),
      [/pile\[0\]\.spoiled\[0\]\.to/],
    ],
    [
      'a field that is not known',
      JSON.stringify({ ...FINE, voids: [{ ...FINE.voids[0], hieght: 150 }] }),
      [/hieght/, /height/],
    ],
    ['a job of 6 MB', JSON.stringify({ ...FINE, name: 'x'.repeat(6_000_000) }), [/5 MB/]],
    [
      'two faults at once',
      JSON.stringify({ ...FINE, pile: [FINE.pile[0], FINE.pile[0]], voids: [{ ...FINE.voids[0], width: -1 }] }),
      [/pile\[1\]\.lot/, /voids\[0\]\.width/],
    ],
    ['a file of a newer kentledge', JSON.stringify({ ...FINE, format: 'kentledge-job/2' }), [/newer|kentledge-job\/2/]],
  ];

  test.each(cases)('%s: exit 2, each fault in one line, nothing written, no stack trace', async (_, text, patterns) => {
    const { status, err, out } = await refusal(text);
    expect(status).toBe(EXIT.refused);
    for (const pattern of patterns) expect(err).toMatch(pattern);
    expect(err).not.toMatch(/\n\s+at /);
    expect(out).toBe('');
    expect(await readdir(folder)).toEqual(['job.json']);
  });

  test('what is wrong with the options of its papers is told with it', async () => {
    const tags = { figures: ['3', '80'], roll: false } as const;
    const { status, err } = await refusal(JSON.stringify({ ...FINE, pile: [] }), { tags, tagMargins: ['150', '8'] });
    expect(status).toBe(EXIT.refused);
    expect(err).toMatch(/^--tags: .*\n--tag-margins: .*\n.*job\.json was refused:\n {2}pile: /);
  });

  test('control characters in what is quoted do not reach the terminal', async () => {
    const { err } = await refusal(JSON.stringify({ ...FINE, voids: [{ ...FINE.voids[0], '\u001b[2Jx': 1 }] }));
    expect(err).not.toContain('\u001b');
  });

  test('a file that is not there is refused by its path, once what is wrong with the options is told', async () => {
    const [out, err] = [new Capture(), new Capture()];
    const world = {
      out,
      err,
      plan: () => Promise.reject(new Error()),
      now: () => new Date(0),
      onInterrupt: () => () => {},
    };
    const tags = { figures: ['99', '99'], roll: false } as const;
    const none = path.join(folder, 'none.json');
    await expect(runPlan(none, { effort: 'quick', seed: 1, tags }, world)).rejects.toMatchObject({
      code: 'ENOENT',
      path: none,
    });
    expect(err.text).toMatch(/^(--tags: .*\n)+$/);
  });
});
