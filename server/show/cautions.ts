/** The cautions of a plan as its page tells them: by the moment at which they count, alike ones told once. */
import type { CAUTIONS } from '../../src/plan/cautionList.ts';
import type { Caution } from '../../src/plan/plan.ts';
import { cautionsTogether } from '../cautionsTogether.ts';
import { pathsInPageWords } from '../form/labels.ts';

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
  'slides-over': 'sea',
  'slides-along': 'sea',
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
  'lift-unknown': 'lifting',
  'opening-unknown': 'lifting',
  'wrap-holds-water': 'stowing',
  'bearers-unknown': 'stowing',
  'most-on-paper': 'stowing',
  'aluminium-hull': 'stowing',
  'lists-more': 'sea',
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
    const lines = cautionsTogether(here).map(({ about, text }) => ({ about, ...inTwo(pathsInPageWords(text)) }));
    return lines.length > 0 ? [{ title, lines }] : [];
  });
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
