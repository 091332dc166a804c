import { Writable } from 'node:stream';
import { afterEach, expect, test, vi } from 'vitest';
import { showProgress } from '../../../server/commands/progressLine.ts';

afterEach(() => void vi.useRealTimers());

function terminal(isTTY: boolean) {
  let text = '';
  const stream = Object.assign(
    new Writable({
      write: (chunk, _, done) => {
        text += String(chunk);
        done();
      },
    }),
    { isTTY, columns: 80 },
  );
  // biome-ignore lint/suspicious/noControlCharactersInRegex: what clears a line begins with an escape.
  return { stream, lines: () => text.split(/\r\x1b\[K/).slice(1) };
}

const step = { phase: 'lengths', step: 3, value: 12, bound: 20 };

test('a step that takes long goes on telling how long', () => {
  vi.useFakeTimers();
  const { stream, lines } = terminal(true);
  const line = showProgress(stream);
  line.show(step);
  vi.advanceTimersByTime(2100);
  line.say('There is no plan yet.');
  line.end();
  vi.advanceTimersByTime(5000);
  expect(lines()).toEqual([
    'lengths, step 3, best so far 12.0 kg, at most 20.0 kg',
    'lengths, step 3, best so far 12.0 kg, at most 20.0 kg, 1 s',
    'lengths, step 3, best so far 12.0 kg, at most 20.0 kg, 2 s',
    'There is no plan yet.\n',
    'lengths, step 3, best so far 12.0 kg, at most 20.0 kg, 2 s',
    '',
  ]);
});

test('where there is no terminal only what is said is written', () => {
  const { stream, lines } = terminal(false);
  const line = showProgress(stream);
  line.show(step);
  line.end();
  expect(lines()).toEqual([]);
});
