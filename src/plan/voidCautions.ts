/** Cautions of the filled voids: doubtful readings, bearers that nobody stated, and the list while they are filled. */
import type { Job } from '../job/job.ts';
import { stationNotes } from '../job/stationNotes.ts';
import { type LaidVoid, layVoid } from '../stow/laid.ts';
import { openingOf, reachUnder, roomUnder } from '../stow/opening.ts';
import { fixed } from '../units.ts';
import { aboutVoids, tell } from './cautionList.ts';
import type { WeighedMasses } from './massNow.ts';
import { heavierMasses, MASS_SPREAD } from './massTolerance.ts';
import { overloadsOf } from './overloads.ts';
import type { Caution, Plan } from './plan.ts';
import { listAtFirst, loadingSequence, sequenceNow } from './sequence.ts';
import { firstPart } from './share.ts';
import { markRanges } from './stops.ts';

/** So many doubtful readings or overloads of one void are told one by one. */
const EACH = 3;

/** The cautions of every void with a bundle in it, and of filling them in the planned order; `weighed` are kg off the scale. */
export function voidCautions(
  job: Job,
  plan: Pick<Plan, 'bars' | 'bundles' | 'voids'>,
  weighed: WeighedMasses,
): Caution[] {
  const holding = new Set(plan.bundles.map((bundle) => bundle.void));
  const filled = job.voids.filter((space) => holding.has(space.void));
  const readings = filled.flatMap((space): Caution[] => {
    const notes = stationNotes(space);
    const more = notes.length - EACH;
    const rest = more > 0 ? [`${more} more of its readings are doubtful.`] : [];
    const texts = [...notes.slice(0, EACH).map((note) => note.text), ...rest];
    return texts.map((text) => tell('doubtful-reading', `void ${space.void}`, text));
  });
  const open = filled.filter((space) => !space.bearers).map((space) => space.void);
  const about = open.length === filled.length ? 'every void' : aboutVoids(open);
  const unknown =
    open.length === 0
      ? []
      : [tell('bearers-unknown', about, `What the stow rests on is not stated for ${open.join(', ')}.`)];
  return [
    ...readings,
    ...endFirstCautions(job, plan),
    ...unknown,
    ...carriedOnPaper(job, plan, weighed),
    ...listCautions(job, plan, weighed),
  ];
}

/** Of voids whose opening nobody placed: bundles that would not get under the deck were it over the middle; one caution each. */
function endFirstCautions(job: Job, plan: Pick<Plan, 'bundles' | 'voids'>): Caution[] {
  const axes = new Map(plan.voids.map((told) => [told.void, told.axis]));
  return job.voids.flatMap((space): Caution[] => {
    const ways = layVoid(space);
    const laid = ways.find((way) => way.axis === axes.get(space.void)) ?? ways[0]!;
    const placed = overTheMiddle(laid);
    if (!placed) return [];
    const own = plan.bundles.filter(
      ({ void: name, at, size }) =>
        name === space.void && openingOf(placed, size.along, size.up, at.up) + 1e-6 < size.across,
    );
    if (own.length === 0) return [];
    const reach = Math.max(...own.map(({ at, size }) => reachUnder(size.along, laid.height - at.up)));
    const highest = Math.max(...own.map(({ size }) => size.up));
    const room = roomUnder(laid.opening!, laid, laid.length / 2, highest);
    const text = `${markRanges(own.map(({ bundle }) => bundle)).join(', ')}: too long to go in flat. End first and at the flattest they reach up to ${Math.ceil(reach)} mm under the deck; where the opening lies is not stated, and over the middle of the void there would be ${Math.floor(room)} mm.`;
    return [tell('end-first-room', `void ${space.void}`, text)];
  });
}

/** The void with its opening over its middle; null where its place is stated, or there are others that may lie better. */
function overTheMiddle(laid: LaidVoid): LaidVoid | null {
  const { opening, otherOpenings = [] } = laid;
  if (!opening || opening.at || otherOpenings.length > 0) return null;
  return { ...laid, opening: { ...opening, at: { along: laid.length / 2, across: 0 } } };
}

/** Voids so near the most that they, their runs or their bearers carry that heavier bars would pass it: one caution each. */
function carriedOnPaper(job: Job, plan: Pick<Plan, 'bars' | 'bundles' | 'voids'>, weighed: WeighedMasses): Caution[] {
  const doubted = new Set(plan.bundles.flatMap((one) => (weighed.has(one.bundle) ? [] : [one.void])));
  const heavier = new Map([...heavierMasses(job, plan), ...weighed]);
  const over = overloadsOf(job, plan, heavier).filter((each) => doubted.has(each.void));
  return [...new Set(over.map((each) => each.void))].map((space) => {
    const own = over.filter((each) => each.void === space);
    const rest = own.length > EACH ? `; and ${own.length - EACH} more` : '';
    const what = own.slice(0, EACH).map(({ text }) => text);
    const text = `Nobody has weighed some of these bars: should they be ${100 * MASS_SPREAD.reckoned} % heavier than reckoned, ${what.join('; ')}${rest}.`;
    return tell('most-on-paper', `void ${space}`, text);
  });
}

function listCautions(job: Job, plan: Pick<Plan, 'bundles' | 'voids'>, weighed: WeighedMasses): Caution[] {
  const { listMost } = job.aims;
  if (listMost === undefined) return [];
  const planned = loadingSequence(job, plan, { first: firstPart(job, plan, job.aims.fixedShare).counts });
  const steps = weighed.size === 0 ? planned : sequenceNow(job, plan, planned, weighed);
  const lists = steps.map((step) => step.list);
  if (lists.includes(null)) {
    const text = `At most ${listMost}° of list is asked for on the way, and her list can not be told without vessel.displacement and vessel.gm.`;
    return [tell('list-passed', 'the loading', text)];
  }
  const worst = steps.reduce((p, q) => (Math.abs(q.list ?? 0) > Math.abs(p.list ?? 0) ? q : p));
  const most = Math.abs(worst.list ?? 0);
  const first = job.vessel?.list === undefined ? 0 : Math.abs(listAtFirst(job) ?? 0);
  if (Math.max(most, first) <= listMost) return [];
  if (first >= most) {
    const text = `She lists about ${fixed(first, 1, 'up')}° to ${sideOf(listAtFirst(job) ?? 0)} before the first bundle goes in; ${listMost}° was asked for.`;
    return [tell('list-passed', 'the loading', text)];
  }
  const side = sideOf(worst.list ?? 0);
  const text = `After ${worst.bundle.bundle} she lists about ${fixed(most, 1, 'up')}° to ${side}; ${listMost}° was asked for.`;
  return [tell('list-passed', 'the loading', text)];
}

function sideOf(list: number): string {
  return list > 0 ? 'starboard' : 'port';
}
