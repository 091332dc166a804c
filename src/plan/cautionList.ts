/**
 * Cautions: what a person must know before acting on a plan. One closed list; each says when it fires and what to do,
 * and nothing here approves anything.
 */
import type { Caution } from './plan.ts';

/** By code: when it fires, and what to do. DEVELOPERS.md lists the same codes; a test keeps the two alike. */
export const CAUTIONS = {
  'not-secured': {
    when: 'A void that carries bundles has no hold-down that carries every assumed load.',
    remedy: 'NOT SECURED, DO NOT GO TO SEA until straps, bolts and bars that carry the loads are fitted and checked.',
  },
  'held-on-paper': {
    when: 'Every void that carries bundles has a hold-down that carries every assumed load on paper.',
    remedy:
      'It holds nothing until it is fitted; have a surveyor or a designer approve it before she goes to sea, and look at it after the first day out.',
  },
  'hold-if-heavier': {
    when: 'A void is held on paper, and would not be, should bars that nobody has weighed be 5 % heavier than reckoned.',
    remedy:
      'Weigh a bar of the lot and state its mass per metre, or type what every bundle weighs under “What the scale says”; or fit what carries more.',
  },
  'slides-over': {
    when: 'Bundles stand higher than the run beside theirs, so that neither that run nor a chock keeps them from sliding over it.',
    remedy: 'Put something there that bears on the end of the void or is made fast, before she goes to sea.',
  },
  'slides-along': {
    when: 'An end of a run has room to slide and no chock of the list: what is kept clear takes the place of it.',
    remedy:
      'Fit something there that bears on the structure, and never on what is kept clear; or state of that whether a chock may stand against it, and plan again.',
  },
  'centre-missed': {
    when: 'The centre of the placed bundles is outside a range asked for.',
    remedy: 'Allow a wider range, or give voids on the other side of it more room, target or rank.',
  },
  'spread-missed': {
    when: 'The r.m.s. distance of the placed mass from the centre of flotation is over the one asked for.',
    remedy: 'Take ballast from the ends: lower the targets there, or allow a greater spread.',
  },
  'void-short': {
    when: 'A void is empty or short of its target while others are filled.',
    remedy: 'See what binds: more or other bars, a greater lift limit, smaller clearances, or less elsewhere.',
  },
  'doubtful-reading': {
    when: 'A reading of a filled void looks like a slipped tape, or a side is hollow between readings.',
    remedy: 'Measure there again before anything is cut: straight lines between the readings are all that is known.',
  },
  'end-first-room': {
    when: 'Bundles that go in end first would not get under the deck of an opening over the middle of the void, and nobody said where it lies.',
    remedy:
      'State where the middle of the opening lies and plan again, or try a batten as long as they are through it, into its place and out again, before anything is cut.',
  },
  'bearers-unknown': {
    when: 'Nothing is stated of what carries a filled void.',
    remedy:
      'Let the weight rest on floors, frames and bearers, never on planking, bare shell, a shaft, a tank or a single bolt; state the bearers, and ask whoever answers for her structure what they carry.',
  },
  'most-on-paper': {
    when: 'A void, a run or a bearer could pass the most it may carry, or she a limit of hers, should bars that nobody has weighed be 5 % heavier than reckoned.',
    remedy:
      'Weigh a bar of the lot and state its mass per metre, then plan again; or type what every bundle weighs under “What the scale says”, and take bars out where the sum is over.',
  },
  'lists-more': {
    when: 'With the plan she lists a degree or more, and more than now.',
    remedy:
      'Ask for a centre to starboard or port under the aims (“Afloat” reckons it from no list) and plan again, or give voids on the other side more: ballast that lists her takes freeboard and stability on that side for good.',
  },
  'list-passed': {
    when: 'On the way she lists more than listMost, or her list can not be told.',
    remedy: 'Load a little on each side by turns, watch her, and stop where she lists; or allow more list.',
  },
  'zinc-fume': {
    when: 'A lot that is cut is zinc coated, or its coating is not known.',
    remedy:
      'Saw cold where you can; with a disc, work in the open or with extraction, head out of the plume, and wear a fume mask. No torch, no welding.',
  },
  'lead-paint': {
    when: 'A lot that is cut is painted, or its coating is not known.',
    remedy:
      'Treat old paint as lead: no dry grinding or burning, a P3 mask, catch the dust, wash before eating. Have it tested.',
  },
  'heavy-bar': {
    when: 'A whole bar of a lot that is cut weighs more than the lift limit of one person.',
    remedy: 'Two people or rollers; support both ends at the saw.',
  },
  'closed-tube': {
    when: 'A lot that is cut is tube or box.',
    remedy:
      'A closed end holds pressure, liquid or vapour: drill a vent hole before sawing, and keep the face away from it.',
  },
  'cut-ends': {
    when: 'Anything is cut.',
    remedy:
      'Deburr every cut end and coat it (zinc-rich paint) before it is tied; let it dry. Bundles bite hands and hulls.',
  },
  'wrap-holds-water': {
    when: 'Bundles are wrapped.',
    remedy:
      'A full wrap holds salt water against the steel: use two or three bands instead, unless the wrap is sure to stay dry.',
  },
  'over-25-kg': {
    when: 'A bundle weighs more than 25 kg.',
    remedy:
      'Two people or a mechanical aid, over 50 kg a hoist or tackle and no lift by hand; check what the local authority and your own back allow.',
  },
  'over-guide': {
    when: 'A bundle weighs more than the guide for one person along the way into its void, or than a figure that whoever lifts has stated.',
    remedy: 'Two people or a mechanical aid, or plan again with a lower lift limit for that void.',
  },
  'limit-on-paper': {
    when: 'Bundles of lots that nobody has weighed could pass their lift limit, should the bars be 5 % heavier than reckoned.',
    remedy:
      'Weigh a bar of the lot and state its mass per metre, then plan again; and put every bundle on the scale before it is carried.',
  },
  'lift-outside-method': {
    when: 'A leg of the way into a filled void is outside the lifting method, or not stated in full.',
    remedy:
      'No published figure covers it: try the lift with less first, and let your own tested figure win where it is lower.',
  },
  'lift-unknown': {
    when: 'Nothing is stated of how bundles are lifted into a filled void.',
    remedy: 'State how they are lifted there, or try the heaviest with less first.',
  },
  'opening-unknown': {
    when: 'A filled void has no opening stated.',
    remedy:
      'State the opening that they go through and plan again, or try a batten as long as the longest through it before anything is cut.',
  },
  'aluminium-hull': {
    when: 'The hull is stated to be of aluminium.',
    remedy:
      'Steel eats aluminium where salt water joins them: no metal contact, a closed barrier that holds no water; better not at all. Ask the yard.',
  },
  'vessel-unknown': {
    when: 'The job gives no displacement of a vessel.',
    remedy:
      'The effect on the vessel is not known: give her displacement, and let a competent person judge stability and freeboard.',
  },
  overloaded: {
    when: 'The ballast placed, with what lies in the voids already, is more than displacementMost less displacement.',
    remedy: 'Lower the ballast asked for or the targets: she would be heavier than the most that was stated for her.',
  },
  compass: {
    when: 'Any bundle is stowed.',
    remedy:
      'Steel below swings a compass and heading sensors: have the compass swung, read the marks, and tell the yard her new weight before the next lift-out.',
  },
} as const;

export type CautionCode = keyof typeof CAUTIONS;

/** A caution: what is so, about what, and what to do about it. */
export function tell(code: CautionCode, about: string, text: string): Caution {
  return { code, about, text: `${text} ${CAUTIONS[code].remedy}` };
}

/** What a caution of some voids is about: `void S1`, `voids S1, S2P`. */
export function aboutVoids(names: readonly string[]): string {
  return `${names.length === 1 ? 'void' : 'voids'} ${names.join(', ')}`;
}
