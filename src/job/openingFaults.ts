/** What can not be true of the openings of a void, one against the others and against the void. */
import type { Fault } from '../fault.ts';
import type { Void } from './job.ts';

/** Every contradiction; `path` is the void's place in the file. */
export function openingFaults(space: Void, path: string): Fault[] {
  const { opening, otherOpenings = [], length, width, stations } = space;
  const faults: Fault[] = [];
  if (!opening && otherOpenings.length > 0)
    faults.push({
      path: `${path}.otherOpenings`,
      code: 'contradiction',
      message: 'Other openings are stated, and “opening” is not.',
      remedy: 'State the largest one as “opening”, the rest under “otherOpenings”.',
    });
  const sides = stations?.flatMap((station) => station.at.flatMap(({ from, to }) => [from, to])) ?? [];
  const [from, to] = stations ? [Math.min(...sides), Math.max(...sides)] : [-width / 2, width / 2];
  const all = [...(opening ? [{ at: opening.at, where: 'opening' }] : [])];
  for (const [i, other] of otherOpenings.entries()) all.push({ at: other.at, where: `otherOpenings[${i}]` });
  for (const { at, where } of all) {
    if (!at) continue;
    const tell = (field: string, message: string, measured: string) =>
      faults.push({
        path: `${path}.${where}.at.${field}`,
        code: 'contradiction',
        message,
        remedy: `Write the middle of the opening, ${measured}; or leave out where it lies.`,
      });
    if (at.along > length) {
      const message = `The opening lies at ${at.along} mm along, and the void is ${length} mm long.`;
      tell('along', message, `measured from where the void begins, 0 to ${length} mm`);
    }
    if (at.across < from || at.across > to) {
      const message = `The opening lies at ${at.across} mm across, and the void reaches from ${from} to ${to} mm.`;
      tell('across', message, `measured from the middle line of the void, ${from} to ${to} mm`);
    }
  }
  return faults;
}
