/**
 * What of a job is possible and yet hardly meant: nothing here is wrong for certain, and nothing keeps a job from being
 * planned. Told beside the field while it can still be measured again.
 */
import { bundleRulesSchema, type Lot, type Opening, sawSchema, type Void } from '../job/job.ts';
import type { StatedParts } from '../job/jobFaults.ts';
import { massPerMetre, type Section, sectionKey } from '../job/section.ts';
import { stationNotes } from '../job/stationNotes.ts';
import { ALONG, ATHWART, UPRIGHT } from '../job/wrongUnit.ts';
import { LEAST_REACH } from '../lift/equation.ts';
import { HEAVY_BUNDLE, HEAVY_FOR_TWO } from '../lift/limit.ts';
import { acrossSize, alongSize, lies, upSize } from '../stow/bundle.ts';
import { layVoid } from '../stow/laid.ts';
import { hasRoomUnder, widestThrough } from '../stow/opening.ts';
import { withoutDust } from '../units.ts';
import { stillCarries } from './contents.ts';
import { figureDoubts } from './figureDoubts.ts';
import { leftUnplaced, portEndsAmidships, samePlaces } from './samePlace.ts';

export interface Doubt {
  /** The field, as in the file. */
  path: string;
  text: string;
}

/** Readings may be wider than the width by so much, mm: both were rounded. */
const ROUNDED = 1;
/** A shorter reach was written in cm, mm. */
const REACH_IN_CM = 100;

/** Of what could be read of a job; every path is that of a field. */
export function jobDoubts(parts: StatedParts): Doubt[] {
  const least = leastBundle(parts);
  const unplaced = new Set(leftUnplaced(parts));
  return [
    ...parts.voids.flatMap((space, i) => {
      if (typeof space !== 'object') return [];
      const path = `voids[${i}]`;
      const { reach, reachEnd } = space.handling ?? {};
      return [
        ...sizeDoubts(space, path),
        ...widthDoubts(space, path),
        ...readingDoubts(space, path),
        ...openingDoubts(space, path, least),
        ...placeDoubts(space, path, least, parts),
        ...limitDoubts(space.limit, path, parts),
        ...reachDoubts({ reach, reachEnd }, `${path}.handling`),
      ];
    }),
    ...[...unplaced].map((index) => ({
      path: `voids[${index}].origin.x`,
      text: 'Where does it lie in her, forward, to starboard and up? Others are placed. With 0 for all three it is reckoned at the after end of the waterline, on the middle line and at the underside of the keel, and her centre, trim and list are then not hers.',
    })),
    // What was never placed is asked for once.
    ...samePlaces(parts).flatMap(({ index, other }) =>
      unplaced.has(index)
        ? []
        : {
            path: `voids[${index}].origin.x`,
            text: `By this place and its sizes it lies, in part at least, where ${other} lies. Both can hardly be there, and her centre, trim and list are reckoned from these places.`,
          },
    ),
    ...portEndsAmidships(parts).flatMap((index) => {
      if (unplaced.has(index)) return [];
      const { length } = parts.voids[index] as Void;
      return {
        path: `voids[${index}].origin.y`,
        text: `By this all of it lies to starboard of her middle line, for where bars lie athwartships it is the place of the port end. With its middle over hers that is ${withoutDust(-length / 2000)} m, ${withoutDust(length / 2000)} m to port.`,
      };
    }),
    ...(parts.lift?.legs ?? []).flatMap(({ reach, reachEnd }, i) =>
      reachDoubts({ reach, reachEnd }, `lift.legs[${i}]`),
    ),
    ...limitDoubts(parts.bundle?.limit, 'bundle', parts),
    ...figureDoubts(parts),
    ...ballastDoubts(parts),
  ];
}

/** Sizes of a void that no small vessel has room for: other units, or a nought too many. Planning so much room may take minutes. */
function sizeDoubts({ length, width, height, axis }: Void, path: string): Doubt[] {
  const athwart = axis === 'either' ? ALONG : ATHWART;
  const sizes = [
    ['length', length, axis === 'athwartships' ? ATHWART : ALONG],
    ['width', width, axis === 'athwartships' ? ALONG : athwart],
    ['height', height, UPRIGHT],
  ] as const;
  return sizes.flatMap(([field, size, { usual }]): Doubt[] => {
    if (size <= 1000 * usual) return [];
    const text = `This is ${withoutDust(size / 1000)} m, and few vessels have ${usual} m of room that way. It is read in mm: is it in another unit, or a figure too long?`;
    return [{ path: `${path}.${field}`, text }];
  });
}

/** With stations the width is only drawn, but whoever wrote one of the two may have slipped. */
function widthDoubts({ stations, width }: Void, path: string): Doubt[] {
  const widest = Math.max(0, ...(stations ?? []).flatMap(({ at }) => at.map(({ from, to }) => to - from)));
  if (widest <= width + ROUNDED) return [];
  const text = `The stations read up to ${Math.round(widest * 100) / 100} mm from side to side, more than this width. They count, and the width is only drawn: is one of them a slip?`;
  return [{ path: `${path}.width`, text }];
}

/** Those notes on stations that are about one field. */
function readingDoubts(space: Void, path: string): Doubt[] {
  return stationNotes(space).flatMap((note) => {
    const [field] = /^stations\[\d+\]\.(batten\.readings|at)(?=\[)/.exec(note.path) ?? [];
    return field === undefined ? [] : [{ path: `${path}.${field}`, text: note.text }];
  });
}

/** The sizes of a bundle of one bar, a pair of across and up for each way it may lie. */
interface LeastBundle {
  along: number;
  lies: { across: number; up: number }[];
}

/** Null where no section of the pile could be read. */
function leastBundle({ pile, saw = sawSchema.parse({}), bundle }: StatedParts): LeastBundle | null {
  const rules = bundle ?? bundleRulesSchema.parse({});
  const sections = new Map<string, Section>();
  for (const lot of pile) if (typeof lot === 'object') sections.set(sectionKey(lot.section), lot.section);
  if (sections.size === 0) return null;
  const all = [...sections.values()].flatMap((section) =>
    lies(section).map((onEdge) => ({
      across: acrossSize(section, onEdge, 1, rules, 0),
      up: upSize(section, onEdge, 1, rules, 0),
    })),
  );
  return { along: alongSize(saw.shortestPiece, saw, rules), lies: withoutLarger(all) };
}

/** The narrowest first, and of the wider ones only those that are lower. */
function withoutLarger(all: LeastBundle['lies']): LeastBundle['lies'] {
  let lowest = Number.POSITIVE_INFINITY;
  return all
    .sort((p, q) => p.across - q.across || p.up - q.up)
    .filter(({ up }) => {
      const lower = up < lowest;
      lowest = Math.min(lowest, up);
      return lower;
    });
}

function openingDoubts(space: Void, path: string, least: LeastBundle | null): Doubt[] {
  if (!least) return [];
  const all: [string, Opening][] = (space.otherOpenings ?? []).map((other, i) => [`otherOpenings[${i}]`, other]);
  if (space.opening) all.unshift(['opening', space.opening]);
  return all.flatMap(([where, opening]): Doubt[] => {
    const { along, across } = opening;
    // Laid either way, what is along for one bundle is across for another.
    const turned = { ...opening, along: across, across: along };
    if (passes(opening, least) || (space.axis === 'either' && passes(turned, least))) return [];
    const narrowest = least.lies[0]?.across ?? 0;
    if (across < narrowest) {
      const text = `No bundle of this pile is narrower than ${narrowest} mm: none passes here.`;
      return [{ path: `${path}.${where}.across`, text }];
    }
    const text = opening.endFirst
      ? `Even end first no bundle of this pile passes an opening of ${along} × ${across} mm.`
      : `No bundle is shorter than ${least.along} mm: none passes here unless it may go in end first.`;
    return [{ path: `${path}.${where}.along`, text }];
  });
}

/** True where the least bundle may pass: flat, or end first with all the room that can be over it. */
function passes({ along, across, endFirst }: Opening, least: LeastBundle): boolean {
  return least.lies.some((lie) => lie.across <= across && (least.along <= along || (endFirst && lie.up <= along)));
}

/**
 * Of several openings those that nobody placed: end first they let through by their slots alone what may not get under the
 * deck, and no plan cautions of it. Asked for where the longest bundle that an opening's slot lets through, and no other
 * opening lets lie flat, would lack the room were it over the middle.
 */
function placeDoubts(space: Void, path: string, least: LeastBundle | null, parts: StatedParts): Doubt[] {
  const { opening, otherOpenings = [] } = space;
  if (!least || !opening || otherOpenings.length === 0) return [];
  const all = [opening, ...otherOpenings];
  const ups = least.lies.map(({ up }) => up);
  const bars = parts.pile.flatMap((lot) => (typeof lot === 'object' ? [...(lot.lengths ?? []), lot.length ?? 0] : []));
  return all.flatMap((own, i): Doubt[] => {
    if (!own.endFirst || own.at) return [];
    const lacks = layVoid(space).some((laid) => {
      const openings = laid.opening ? [laid.opening, ...(laid.otherOpenings ?? [])] : [];
      const turned = openings[i]!;
      const flat = Math.max(...openings.map(({ along }) => along));
      const free = laid.height - laid.dunnage;
      const up = Math.min(...ups);
      const longest = Math.floor(Math.min(Math.max(...bars), laid.length - 2 * laid.clear.ends));
      const over = { ...turned, at: { along: laid.length / 2, across: 0 } };
      for (let along = longest; along > flat; along--)
        if (widestThrough(turned, along, up, free) > 0) return !hasRoomUnder(over, laid, along, up, free);
      return false;
    });
    if (!lacks) return [];
    const field = i === 0 ? 'opening.at.along' : `otherOpenings[${i - 1}].at.along`;
    const text =
      'Where is it? Long bundles that go in end first here need room under the deck, and over the middle of the void they would not have it.';
    return [{ path: `${path}.${field}`, text }];
  });
}

/** A lift limit that bundles for two people keep; not where none over {@link HEAVY_BUNDLE} is allowed anyway. */
function limitDoubts(limit: number | undefined, path: string, { lift }: StatedParts): Doubt[] {
  if (limit === undefined || limit < HEAVY_BUNDLE || lift?.forbidHeavy) return [];
  const text =
    limit > HEAVY_FOR_TWO
      ? `By hand? Over ${HEAVY_FOR_TWO} kg two people are too few: it takes a hoist or tackle at both ends of the way. A limit that one person can lift makes bundles that one person can take out again.`
      : `For one person? Over ${HEAVY_BUNDLE} kg takes two people or a mechanical aid: check what the local authority and your own back allow.`;
  return [{ path: `${path}.limit`, text }];
}

function reachDoubts(reaches: Record<string, number | undefined>, path: string): Doubt[] {
  return Object.entries(reaches).flatMap(([field, reach]): Doubt[] => {
    if (reach === undefined || reach >= LEAST_REACH) return [];
    const method = `The method reckons with ${LEAST_REACH} mm at least: nobody's hands are nearer.`;
    const text =
      reach > 0 && reach < REACH_IN_CM
        ? `Did you mean ${reach} cm, which is ${withoutDust(reach * 10)} mm? ${method}`
        : method;
    return [{ path: `${path}.${field}`, text }];
  });
}

/** More ballast than the pile weighs, or than she may carry; or no most of it, where the pile weighs more than that. */
function ballastDoubts(parts: StatedParts): Doubt[] {
  const ballast = parts.aims?.ballast;
  const masses = parts.pile.map((lot) => (typeof lot === 'object' ? massOf(lot, parts.density) : null));
  const known = !masses.includes(null) && masses.length > 0;
  const whole = masses.reduce((sum: number, mass) => sum + (mass ?? 0), 0);
  const carries = stillCarries(parts, 0);
  const texts: string[] = [];
  if (known && ballast !== undefined && ballast > whole)
    texts.push(`The whole pile weighs ${Math.round(whole)} kg: there is no more to place.`);
  const most = carries > 0 ? `She may carry only ${Math.floor(carries)} kg more` : 'She may carry no more';
  if (ballast !== undefined && ballast > carries) texts.push(`${most}, by what she displaces now and at most.`);
  if (known && ballast === undefined && whole > carries)
    texts.push(`${most} and the pile weighs ${Math.round(whole)} kg: state here how much is to be placed at most.`);
  return texts.map((text) => ({ path: 'aims.ballast', text }));
}

/** Null where a lot does not say enough. */
function massOf(lot: Lot, density: number): number | null {
  const perMetre = lot.massPerMetre ?? massPerMetre(lot.section, density);
  if (perMetre === null || (lot.length === undefined && lot.lengths === undefined)) return null;
  const metres = (lot.lengths?.reduce((sum, length) => sum + length, 0) ?? (lot.count ?? 1) * (lot.length ?? 0)) / 1000;
  return metres * perMetre;
}
