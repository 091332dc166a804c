/** Steel: all lots of one section, as the stowage sees them. */
import type { Job } from '../job/job.ts';
import { barLengths, lotMassPerMetre, usableSpans } from '../job/lot.ts';
import { rolls, type Section, sectionKey } from '../job/section.ts';
import { type Tie, tiesOf } from './bundle.ts';

/** One section of the pile. Masses kg/m. */
export interface Steel {
  index: number;
  section: Section;
  key: string;
  /** The most that any bar of the section bows, mm in 1 m. */
  bow: number;
  /** Mass per metre of the heaviest and the lightest lot of the section. */
  heaviest: number;
  lightest: number;
  /** The most pieces of a length that all its bars could yield. */
  yieldOf(length: number): number;
  /** `tiesOf` for the section, kept. */
  ties(rows: number, most: number): Tie[];
}

/** The sections of the pile, in the order in which their first lots were stated. */
export function steelsOf(job: Job): Steel[] {
  const byKey = new Map<string, Steel>();
  const ties = tieBook();
  for (const lot of job.pile) {
    const key = sectionKey(lot.section);
    const perMetre = lotMassPerMetre(lot, job.steel.density);
    const known = byKey.get(key);
    if (known) {
      known.bow = Math.max(known.bow, lot.bow);
      known.heaviest = Math.max(known.heaviest, perMetre);
      known.lightest = Math.min(known.lightest, perMetre);
    } else {
      const { section, bow } = lot;
      const steel = { index: byKey.size, section, key, bow, heaviest: perMetre, lightest: perMetre };
      byKey.set(key, {
        ...steel,
        ties: (rows, most) => ties(section, rows, most),
        yieldOf: yieldBook(job, key),
      });
    }
  }
  return [...byKey.values()];
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

/** Counts pieces that bars of a section yield, each length cut alone; kept once counted. */
function yieldBook(job: Job, key: string): (length: number) => number {
  const { kerf } = job.saw;
  const bars = job.pile
    .filter((lot) => sectionKey(lot.section) === key)
    .flatMap((lot) => barLengths(lot).map((length) => usableSpans(lot, length, job.saw)));
  const spans = new Map<number, number>();
  for (const { from, to } of bars.flat()) spans.set(to - from, (spans.get(to - from) ?? 0) + 1);
  const known = new Map<number, number>();
  return (length) => {
    let pieces = known.get(length);
    if (pieces === undefined) {
      pieces = 0;
      for (const [span, count] of spans) pieces += count * Math.floor((span + kerf + 1e-6) / (length + kerf));
      known.set(length, pieces);
    }
    return pieces;
  };
}
