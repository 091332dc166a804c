/**
 * Width and height of a void that is measured by stations: the format wants them, and the readings have them already. Left
 * empty they are taken from the readings, and follow them until somebody types others. Mm.
 */
import { stationSchema } from '../../src/job/job.ts';
import type { Draft } from './apply.ts';
import { isRecord, listAt, setAt, valueAt } from './path.ts';

const FIELDS = ['width', 'height'] as const;

type Sizes = Partial<Record<(typeof FIELDS)[number], number>>;

/** The widest reading from side to side, and the highest; nothing where a station can not be read, or there are not two. */
export function sizesRead(space: unknown): Sizes {
  const stations = listAt(space, ['stations']).map((station) => stationSchema.safeParse(station).data);
  const readings = stations.flatMap((station) => station?.at ?? []);
  if (stations.length < 2 || stations.includes(undefined) || readings.length === 0) return {};
  const sizes = {
    width: Math.max(...readings.map(({ from, to }) => to - from)),
    height: Math.max(...readings.map(({ up }) => up)),
  };
  return Object.fromEntries(Object.entries(sizes).filter(([, size]) => size > 0));
}

/** Puts into `draft`, made of `base`, what its stations say of sizes that nobody typed. */
export function takeSizes(draft: Draft, base: Draft): void {
  for (const [v, space] of listAt(draft, ['voids']).entries()) {
    if (!isRecord(space) || listAt(space, ['stations']).length === 0) continue;
    const before = valueAt(base, ['voids', v]);
    const [read, readBefore] = [sizesRead(space), sizesRead(before)];
    for (const field of FIELDS) {
      if (read[field] === undefined) continue;
      const followed = space[field] === readBefore[field] && space[field] === valueAt(before, [field]);
      if (space[field] === undefined || followed) setAt(draft, ['voids', v, field], read[field]);
    }
  }
}

/** The names of the fields that say what the stations read. */
export function takenSizes(draft: Draft): ReadonlySet<string> {
  return new Set(
    listAt(draft, ['voids']).flatMap((space, v) => {
      const read = sizesRead(space);
      return FIELDS.filter((field) => read[field] !== undefined && read[field] === valueAt(space, [field])).map(
        (field) => `voids[${v}].${field}`,
      );
    }),
  );
}
