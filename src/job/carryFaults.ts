/** What can not be true of what carries the ground tier of a void, and of the channel left beside it. */
import type { Fault } from '../fault.ts';
import type { Void } from './job.ts';
import { wrongUnit } from './wrongUnit.ts';

/** A bearer or channel smaller than this was written in metres, mm. */
const SMALLEST = 1;

/** Every contradiction in bearers, load for the length and drain; `path` is the void's place in the file. */
export function carryFaults(space: Void, path: string): Fault[] {
  return [...bearerFaults(space, path), ...drainFaults(space, path)];
}

function bearerFaults(space: Void, path: string): Fault[] {
  const { bearers, length, axis } = space;
  if (!bearers) return [];
  const faults: Fault[] = [];
  const tell = (at: string, message: string, remedy: string) =>
    faults.push({ path: `${path}.bearers${at}`, code: 'contradiction', message, remedy });
  if (axis === 'either')
    tell(
      '',
      'Bearers lie across the bars, and the bars of this void may lie either way.',
      'Choose fore-and-aft or athwartships, the way that the bars cross the bearers.',
    );
  if (bearers.length < 2)
    tell('', 'There is one bearer, and every bundle rests on two or more.', 'Write every bearer of the void, or none.');
  const sorted = bearers.map((bearer, i) => ({ ...bearer, i })).sort((p, q) => p.along - q.along);
  for (const [n, { along, width, most, i }] of sorted.entries()) {
    if (width < SMALLEST)
      faults.push(wrongUnit(`${path}.bearers[${i}].width`, `The bearer is ${width} mm wide.`, width, 1000, 'mm'));
    if (along > length)
      tell(
        `[${i}].along`,
        `The bearer stands at ${along} mm, and the void is ${length} mm long.`,
        'Measure to the middle of the bearer, from where along is 0; or mend the length.',
      );
    if (most === 0)
      tell(`[${i}].most`, 'The bearer may carry nothing.', 'Take it out of the list: it bears nothing then.');
    const before = sorted[n - 1];
    if (before && along - width / 2 < before.along + before.width / 2)
      tell(
        `[${i}].along`,
        `The bearer at ${along} mm overlaps the one at ${before.along} mm.`,
        'Measure to the middles of the bearers, and write their widths along the void.',
      );
  }
  return faults;
}

function drainFaults(space: Void, path: string): Fault[] {
  const { drain, axis, width, height } = space;
  if (!drain) return [];
  const faults: Fault[] = [];
  const tell = (field: string, message: string, remedy: string) =>
    faults.push({ path: `${path}.drain${field}`, code: 'contradiction', message, remedy });
  if (axis === 'either')
    tell(
      '',
      'The channel runs along the bars, and the bars of this void may lie either way.',
      'Choose fore-and-aft or athwartships, the way that the water runs.',
    );
  for (const field of ['width', 'height'] as const)
    if (drain[field] < SMALLEST)
      faults.push(
        wrongUnit(
          `${path}.drain.${field}`,
          `The channel has a ${field} of ${drain[field]} mm.`,
          drain[field],
          1000,
          'mm',
        ),
      );
  const channels = drain.where === 'sides' ? 2 : 1;
  if (!space.stations && channels * drain.width >= width)
    tell(
      '.width',
      `${channels === 1 ? 'A channel' : 'Two channels'} of ${drain.width} mm take the whole width of ${width} mm.`,
      'Write a narrower channel; dunnage keeps the whole floor free for water.',
    );
  if (drain.height >= height)
    tell(
      '.height',
      `A channel ${drain.height} mm high takes the whole height of ${height} mm.`,
      'Write the height that the water needs.',
    );
  return faults;
}
