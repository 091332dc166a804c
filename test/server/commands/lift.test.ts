import { Writable } from 'node:stream';
import { Command } from 'commander';
import { describe, expect, it } from 'vitest';
import { addLiftCommand, type LiftCommandOptions, runLift } from '../../../server/commands/lift.ts';

function printed(options: Partial<LiftCommandOptions>): string {
  let text = '';
  const out = new Writable({
    write(chunk, _encoding, done) {
      text += chunk;
      done();
    },
  });
  expect(runLift({ reach: 450, start: 750, end: 300, hands: '2', ...options }, out)).toBe(0);
  return text;
}

describe('kentledge lift', () => {
  it('prints the answer of the format page as JSON', () => {
    expect(JSON.parse(printed({ json: true }))).toEqual({
      begin: { rwl: 11.76, multipliers: { reach: 0.556, height: 1, travel: 0.92, twist: 1, pace: 1, grip: 1 } },
      finish: { rwl: 9.66, multipliers: { reach: 0.556, height: 0.865, travel: 0.92, twist: 1, pace: 1, grip: 0.95 } },
      guide: 9.66,
      applies: true,
      cautions: [],
    });
  });

  it('calls no figure a guide where the method does not apply', () => {
    expect(printed({})).toContain('guide: 9.66 kg');
    const kneeling = printed({ posture: 'kneeling' });
    expect(kneeling).toContain('no guide');
    expect(kneeling).not.toMatch(/^guide:/m);
    expect(JSON.parse(printed({ hands: '1', json: true }))).toMatchObject({
      applies: false,
      cautions: [{ code: 'one-hand' }],
    });
  });

  it.each([
    ['text for a number', ['--reach', 'far']],
    ['a hand too many', ['--hands', '3']],
    ['an unknown grip', ['--grip', 'firm']],
    ['a negative reach', ['--reach', '-1']],
  ])('refuses %s', (_name, args) => {
    const program = new Command().exitOverride().configureOutput({ writeErr: () => {} });
    addLiftCommand(program);
    const all = ['lift', '--reach', '450', '--start', '750', '--end', '300', ...args];
    expect(() => program.parse(all, { from: 'user' })).toThrow();
  });
});
