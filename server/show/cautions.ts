/** The cautions of a plan as its page tells them: by the moment at which they count, alike ones told once. */
import type { CAUTIONS } from '../../src/plan/cautionList.ts';
import type { Caution } from '../../src/plan/plan.ts';
import { markRanges } from '../../src/plan/stops.ts';

type Moment = 'sea' | 'measures' | 'steel' | 'lifting' | 'stowing' | 'afloat';

const MOMENTS: readonly (readonly [Moment, string])[] = [
  ['sea', 'Before she goes to sea'],
  ['measures', 'What this plan rests on'],
  ['steel', 'At the pile and the saw'],
  ['lifting', 'Carrying and lowering'],
  ['stowing', 'In the voids'],
  ['afloat', 'Afloat'],
];

const WHEN: Record<keyof typeof CAUTIONS, Moment> = {
  'not-secured': 'sea',
  'held-on-paper': 'sea',
  'hold-if-heavier': 'sea',
  compass: 'sea',
  'doubtful-reading': 'measures',
  'end-first-room': 'measures',
  'void-short': 'measures',
  'centre-missed': 'measures',
  'spread-missed': 'measures',
  'zinc-fume': 'steel',
  'lead-paint': 'steel',
  'closed-tube': 'steel',
  'heavy-bar': 'steel',
  'cut-ends': 'steel',
  'over-25-kg': 'lifting',
  'over-guide': 'lifting',
  'limit-on-paper': 'lifting',
  'lift-outside-method': 'lifting',
  'wrap-holds-water': 'stowing',
  'bearers-unknown': 'stowing',
  'most-on-paper': 'stowing',
  'aluminium-hull': 'stowing',
  'vessel-unknown': 'afloat',
  overloaded: 'afloat',
  'list-passed': 'afloat',
};

export interface CautionGroup {
  title: string;
  /** `rest` is what goes on after the first sentences of a long text. */
  lines: { about: string; text: string; rest?: string }[];
}

/** Every caution, under its moment. */
export function groupCautions(cautions: readonly Caution[]): CautionGroup[] {
  return MOMENTS.flatMap(([moment, title]) => {
    const here = cautions.filter(({ code }) => momentOf(code) === moment);
    const texts = new Map<string, string[]>();
    for (const { about, text } of withHeavyTogether(here)) texts.set(text, [...(texts.get(text) ?? []), about]);
    const lines = [...texts].map(([text, abouts]) => ({ about: joined(abouts), ...inTwo(text) }));
    return lines.length > 0 ? [{ title, lines }] : [];
  });
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

/** A plan kept by an older or newer version may carry a code that is not in the list. */
function momentOf(code: string): Moment {
  return Object.hasOwn(WHEN, code) ? WHEN[code as keyof typeof WHEN] : 'measures';
}

/** A longer text is shown in two, the second part folded. */
const LONG = 700;
/** Of such a one the sentences are shown that begin within so many letters. */
const SHOWN = 300;

/** The first sentences of a long text, and the rest of it: of sixty voids the holding alone would fill ten screens of a phone. */
function inTwo(text: string): { text: string; rest?: string } {
  if (text.length <= LONG) return { text };
  const end = [...text.matchAll(/\. (?=\p{Lu})/gu)].find(({ index }) => index >= SHOWN)?.index;
  return end === undefined ? { text } : { text: text.slice(0, end + 1), rest: text.slice(end + 2) };
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
