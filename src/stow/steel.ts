/** Steel as the stowage sees it: bars of one section and one mass per metre. */
import type { Job } from '../job/job.ts';
import { barLengths, lotMassPerMetre, type Span, usableSpans } from '../job/lot.ts';
import { rolls, type Section, sectionKey } from '../job/section.ts';
import { type Tie, tiesOf } from './bundle.ts';
import { jointShare, longestJointed } from './jointShare.ts';

/** Bars of one section and, but for a whole section taken together, of one mass per metre. Masses kg/m. */
export interface Steel {
  index: number;
  section: Section;
  /** `sectionKey` of the section. */
  key: string;
  /** The most that any bar of the section bows, mm in 1 m. */
  bow: number;
  /** Mass per metre of the heaviest and the lightest of its bars. */
  heaviest: number;
  lightest: number;
  /** The most bars of a length, whole or jointed, that all its bars could yield. */
  yieldOf(length: number): number;
  /** `tiesOf` for the section, kept. */
  ties(rows: number, most: number): Tie[];
}

/** The steels of the pile, in the order in which their first lots were stated. */
export function steelsOf(job: Job): Steel[] {
  const found = new Map<string, Steel>();
  const ties = tieBook();
  for (const { section } of job.pile) {
    const key = sectionKey(section);
    const alike = job.pile.filter((lot) => sectionKey(lot.section) === key);
    const bow = Math.max(...alike.map((lot) => lot.bow));
    for (const lot of alike) {
      const perMetre = lotMassPerMetre(lot, job.steel.density);
      const id = `${key} ${perMetre}`;
      if (found.has(id)) continue;
      found.set(id, {
        index: found.size,
        section,
        key,
        bow,
        heaviest: perMetre,
        lightest: perMetre,
        yieldOf: yieldBook(
          job,
          (other) => alike.includes(other) && lotMassPerMetre(other, job.steel.density) === perMetre,
          longestJointed(
            job.bundle,
            Math.max(...job.voids.map((space) => space.limit ?? job.bundle.limit)),
            Math.min(...alike.map((other) => lotMassPerMetre(other, job.steel.density))),
            job.saw.tolerance,
          ),
        ),
        ties: (rows, most) => ties(section, rows, most),
      });
    }
  }
  return [...found.values()];
}

/** The sections of the pile: each with all its steels taken together, and which those are. */
export function sectionsOf(steels: Steel[]): { whole: Steel; members: Steel[] }[] {
  const keys = [...new Set(steels.map((steel) => steel.key))];
  return keys.map((key, index) => {
    const members = steels.filter((steel) => steel.key === key);
    const whole = {
      ...members[0]!,
      index,
      heaviest: Math.max(...members.map((steel) => steel.heaviest)),
      lightest: Math.min(...members.map((steel) => steel.lightest)),
      yieldOf: (length: number) => members.reduce((sum, steel) => sum + steel.yieldOf(length), 0),
    };
    return { whole, members };
  });
}

/** Ties once worked out are kept: they depend on whether the bars roll, not on the section. */
function tieBook(): typeof tiesOf {
  const known = new Map<string, Tie[]>();
  return (section, rows, most) => {
    const key = `${rolls(section)}:${rows}:${most}`;
    let ties = known.get(key);
    if (!ties) {
      ties = tiesOf(section, rows, most);
      known.set(key, ties);
    }
    return ties;
  };
}

/** Counts bars of a bundle that the bars of some lots yield, each length cut alone, up to `longest` mm jointed ones too; kept once counted. */
function yieldBook(
  job: Job,
  belongs: (lot: Job['pile'][number]) => boolean,
  longest: number,
): (length: number) => number {
  const { kerf } = job.saw;
  const spans = new Map<number, number>();
  const count = ({ from, to }: Span) => spans.set(to - from, (spans.get(to - from) ?? 0) + 1);
  for (const lot of job.pile.filter(belongs)) {
    for (const length of barLengths(lot)) usableSpans(lot, length, job.saw).forEach(count);
  }
  const share = jointShare(job.bundle);
  // Jointed bars are a share of all at most, and take their own steel and one kerf more.
  const withJoints = (whole: number, length: number) => {
    const each = Math.min(length + kerf, length - job.saw.tolerance + 2 * kerf);
    let most = 0;
    for (const [span, times] of spans) most += (times * (span + kerf)) / each;
    return Math.ceil(Math.min(whole / (1 - share), most));
  };
  const known = new Map<number, number>();
  return (length) => {
    let pieces = known.get(length);
    if (pieces === undefined) {
      pieces = 0;
      for (const [span, times] of spans) pieces += times * Math.floor((span + kerf + 1e-6) / (length + kerf));
      if (share > 0 && length <= longest) pieces = withJoints(pieces, length);
      known.set(length, pieces);
    }
    return pieces;
  };
}
