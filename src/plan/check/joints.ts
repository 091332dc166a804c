/** Bars of a bundle butted from two or three pieces. */
import type { Job } from '../../job/job.ts';
import type { PlanBundle } from '../plan.ts';
import type { Tell } from './planFault.ts';

/** Joints of touching bars stand at least this far apart, mm. */
const APART = 50;

/** Checks the joints of a bundle. `lengths` holds the pieces of each bar, mm, from least along, in the order of its slots. */
export function checkJoints(job: Job, bundle: PlanBundle, lengths: number[][], tell: Tell): void {
  const about = `bundle ${bundle.bundle}`;
  const jointed = lengths.filter((pieces) => pieces.length > 1).length;
  if (jointed === 0) return;
  const rules = job.bundle.joints;
  if (!rules) {
    tell(
      'joint-not-allowed',
      about,
      `${about} has ${jointed} of ${lengths.length} bars jointed, and joints are not allowed.`,
    );
    return;
  }
  if (jointed > rules.share * lengths.length + 1e-9)
    tell(
      'joint-share',
      about,
      `${about} has ${jointed} of ${lengths.length} bars jointed; at most ${rules.share} of them may be.`,
    );
  const rows: number[][][] = [];
  let next = 0;
  for (const count of bundle.columns) {
    rows.push(lengths.slice(next, next + count));
    next += count;
  }
  for (const [r, row] of rows.entries())
    for (const [k, pieces] of row.entries()) {
      if (pieces.length < 2) continue;
      const place = `bar ${k + 1} of row ${r + 1}`;
      if (Math.min(...pieces) < rules.shortest - 1e-6)
        tell(
          'joint-short',
          about,
          `${about}: a piece of ${place} is under ${rules.shortest} mm.`,
          rules.shortest - Math.min(...pieces),
        );
      if (k === 0 || k === row.length - 1)
        tell('joint-outer', about, `${about}: ${place} is jointed, at the end of its row.`);
      const beside = row[k + 1] ? [row[k + 1]!] : [];
      const above = (rows[r + 1] ?? []).filter((_, m) => touches(bundle, row.length, rows[r + 1]!.length, k, m));
      for (const other of [...beside, ...above])
        if (closeJoints(pieces, other))
          tell('joint-beside-joint', about, `${about}: a joint of ${place} lies beside another.`);
    }
}

/** Does bar k of a row touch bar m of the row above? Equal nested rows may shift either way, so both count. */
function touches(bundle: PlanBundle, below: number, above: number, k: number, m: number): boolean {
  if (bundle.arrangement === 'grid') return k === m;
  if (above > below) return m === k || m === k + 1;
  if (above < below) return m === k || m === k - 1;
  return Math.abs(m - k) <= 1;
}

function closeJoints(pieces: number[], other: number[]): boolean {
  const places = jointsOf(other);
  return jointsOf(pieces).some((place) => places.some((at) => Math.abs(at - place) < APART - 1e-6));
}

/** Where the pieces of a bar meet, mm from its start. */
function jointsOf(pieces: number[]): number[] {
  let at = 0;
  return pieces.slice(0, -1).map((length) => {
    at += length;
    return at;
  });
}
