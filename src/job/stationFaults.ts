/** What can not be true of the stations of a void. */
import type { Fault } from '../fault.ts';
import { fromBatten } from './batten.ts';
import type { Void } from './job.ts';
import { sideOf } from './stationSides.ts';

/** Sides stated and sides that the batten gives may differ by so much, mm: both were rounded. */
const AGREE = 1;

const SIDES = ['from', 'to'] as const;

/** Every contradiction in the stations; `path` is the void's place in the file. */
export function stationFaults(space: Void, path: string): Fault[] {
  const { stations, length, axis } = space;
  if (stations === undefined) return [];
  const faults: Fault[] = [];
  if (axis === 'either') {
    const message = 'Bars may lie either way only in a void stated as a box; this one has stations.';
    const remedy = 'Choose fore-and-aft or athwartships, the way the stations were taken.';
    faults.push({ path: `${path}.axis`, code: 'contradiction', message, remedy });
  }
  const tell = (at: string, code: Fault['code'], message: string, remedy: string) =>
    faults.push({ path: `${path}.stations${at}`, code, message, remedy });
  const places = stations.map((station) => station.along);
  const first = Math.min(...places);
  const last = Math.max(...places);
  if (first !== 0)
    tell(
      `[${places.indexOf(first)}].along`,
      'contradiction',
      `The first station stands at ${first} mm.`,
      'Take one at 0.',
    );
  if (last !== length) {
    const message = `The last station stands at ${last} mm, and the void is ${length} mm long.`;
    tell(`[${places.lastIndexOf(last)}].along`, 'contradiction', message, `Take one at ${length}, or mend the length.`);
  }
  for (const [i, station] of stations.entries()) {
    if (places.indexOf(station.along) < i)
      tell(
        `[${i}].along`,
        'not-unique',
        `Two stations stand at ${station.along} mm.`,
        'Keep one of them, or mend its place.',
      );
    const ups = station.at.map((reading) => reading.up);
    for (const [j, reading] of station.at.entries()) {
      if (ups.indexOf(reading.up) < j)
        tell(`[${i}].at[${j}].up`, 'not-unique', `Two readings stand at ${reading.up} mm up.`, 'Keep one of them.');
      if (reading.from <= reading.to) continue;
      const message = `The clear space runs from ${reading.from} to ${reading.to} mm, backwards.`;
      tell(`[${i}].at[${j}].to`, 'contradiction', message, '“from” is the port (or after) side, the lesser figure.');
    }
    faults.push(...battenFaults(station, `${path}.stations[${i}]`));
  }
  return faults;
}

/** Where a station states both what is clear and how it was measured, the two must say the same. */
function battenFaults(station: NonNullable<Void['stations']>[number], path: string): Fault[] {
  const { at, batten } = station;
  if (!batten) return [];
  const measured = { at: fromBatten(batten) };
  const stated = { at: [...at].sort((p, q) => p.up - q.up) };
  for (const up of new Set([...measured.at, ...stated.at].map((reading) => reading.up))) {
    const [said, found] = [stated, measured].map((station) => SIDES.map((side) => sideOf(station, up, side)));
    if (said!.every((across, i) => Math.abs(across - found![i]!) <= AGREE)) continue;
    const message = `At ${up} mm up the station says ${shown(said!)}, and the batten gives ${shown(found!)}.`;
    const remedy = 'Take “at” out, and it is worked out from the batten; or take “batten” out.';
    return [{ path: `${path}.batten`, code: 'contradiction', message, remedy }];
  }
  return [];
}

function shown(sides: number[]): string {
  return sides.map(Math.round).join(' … ');
}
