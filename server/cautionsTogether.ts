/** Cautions that say the same of several lots or voids, told once: for the pages and the terminal. A plan file keeps each by itself. */
import type { Caution } from '../src/plan/plan.ts';
import { markRanges } from '../src/plan/stops.ts';

/** The cautions in their order, those of one text as one about all that they are about. */
export function cautionsTogether(cautions: readonly Caution[]): Caution[] {
  const alike = new Map<string, Caution[]>();
  for (const one of withHeavyTogether(cautions)) alike.set(one.text, [...(alike.get(one.text) ?? []), one]);
  return [...alike.values()].map((own) => ({ ...own[0]!, about: joined(own.map(({ about }) => about)) }));
}

/** So many different whole bars are each told with their mass. */
const HEAVY_TOLD = 3;
const HEAVY = /^A whole bar weighs up to ([\d.]+) kg/;

/** Of a list with a lot for every bar the heavy ones take one line, with the heaviest: what else is to be minded is under them. */
function withHeavyTogether(cautions: readonly Caution[]): readonly Caution[] {
  const massOf = ({ text }: Caution): number => Number(HEAVY.exec(text)?.[1]);
  const heavy = cautions.filter((one) => one.code === 'heavy-bar' && HEAVY.test(one.text));
  if (new Set(heavy.map(({ text }) => text)).size <= HEAVY_TOLD) return cautions;
  const { text } = heavy.reduce((most, one) => (massOf(one) > massOf(most) ? one : most));
  return cautions.map((one) => (heavy.includes(one) ? { ...one, text } : one));
}

/** What stands before the mark that most cautions are about, and before several. */
const LEADS = [
  ['pile lot ', 'pile lots '],
  ['void ', 'voids '],
] as const;

/** The marks of a caution that is about many of them already, where they can be told apart: `V1, V2, V3`. */
function several(marks: string): string[] {
  const parts = marks.split(', ');
  return parts.length > 2 && parts.every((part) => /^[\p{L}-]*\d+$/u.test(part)) ? parts : [marks];
}

/** `pile lot A`, `pile lot C`: `pile lots A, C`; `voids V1 to V9`. A mark stays whole, whatever spaces are in it. */
function joined(abouts: string[]): string {
  const leads = LEADS.find((pair) => abouts.every((about) => pair.some((lead) => about.startsWith(lead))));
  if (!leads) return [...new Set(abouts)].join(', ');
  const without = (about: string) => about.slice(leads.find((lead) => about.startsWith(lead))!.length);
  const marks = [...new Set(abouts)].flatMap((about) => several(without(about)));
  return (
    leads[marks.length > 1 || abouts.some((about) => about.startsWith(leads[1])) ? 1 : 0] + markRanges(marks).join(', ')
  );
}
