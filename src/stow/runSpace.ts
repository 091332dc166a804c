/** The space of a run: what tiers may stand in it, whatever they are worth. */
import type { BundleRules, Saw } from '../job/job.ts';
import { alongSize, lies, sagOf } from './bundle.ts';
import { type Envelope, envelope } from './envelope.ts';
import { KindBook } from './kindBook.ts';
import type { LaidVoid } from './laid.ts';
import { openingOf, passesAlike } from './opening.ts';
import { blocksIn, Sides } from './profile.ts';
import { type Rest, restOf } from './rest.ts';
import { Riser } from './rise.ts';
import { RiseMap } from './riseMap.ts';
import { FillBook, type LadderKind, ladderOf } from './rungs.ts';
import type { Steel } from './steel.ts';
import { capFill, type Fill, type TierKind, tierKind, width } from './tier.ts';

/** What lies so little over the bottom lies on it (format.md): over a tier no higher there is no second one, mm. */
export const ON_BOTTOM = 2;

/** Everything about a run of one length at one place that does not depend on prices. */
export interface RunSpace {
  length: number;
  /** Size along of its bundles, mm. */
  along: number;
  gap: number;
  wrap: number;
  space: Envelope;
  kinds: TierKind[];
  /** Widest bundle that the opening lets through, by the height of its underside. */
  widest(kind: TierKind, up: number): number;
  /** The most bars of each steel that the pile could yield at this length. */
  yields: number[];
  /** True where a stack could hold more bars of some steel than the pile could yield. */
  scarce: boolean;
  /** True where the space is the same at every height, so that tiers may be exchanged. */
  uniform: boolean;
  /** Fills by kind where the space is uniform; otherwise empty. */
  fills: Fill[][];
  /** The kinds and the space as a rising sees them, made when first asked for: plain boxes need none. */
  ladder: () => LadderKind[];
  map: () => RiseMap;
  rest: Rest;
  /** Mass of a bar of each steel, and of the wrapping of a bundle, kg. */
  masses: number[];
  wrapping: number;
  riser: Riser;
}

/** What runs of one length share, wherever they lie: kinds of tier, lowest first, with their ladder; most bars and mass of a bar by steel. */
interface OfLength {
  kinds: TierKind[];
  ladder: () => LadderKind[];
  yields: number[];
  masses: number[];
}

/** What is worked out once for all runs of a laid void. */
export class RunBook {
  readonly laid: LaidVoid;
  readonly sides: Sides;
  readonly riser = new Riser();
  private readonly steels: Steel[];
  private readonly rules: BundleRules;
  private readonly saw: Saw;
  private readonly fills: FillBook;
  private readonly kinds: KindBook;
  private readonly lengths = new Map<number, OfLength>();

  constructor(laid: LaidVoid, steels: Steel[], rules: BundleRules, saw: Saw) {
    this.laid = laid;
    this.steels = steels;
    this.rules = rules;
    this.saw = saw;
    this.sides = new Sides(laid);
    this.fills = new FillBook(laid.gap.across, this.sides.widest);
    this.kinds = new KindBook(laid.gap.across);
  }

  /** Size along of bundles of a length, mm. */
  along(length: number): number {
    return alongSize(length, this.saw, this.rules);
  }

  /** What runs of one length share. */
  of(length: number): OfLength {
    let known = this.lengths.get(length);
    if (!known) {
      const kinds = this.kindsOf(length);
      const yields = this.steels.map((steel) => steel.yieldOf(length));
      const masses = this.steels.map((steel) => (steel.heaviest * length) / 1000);
      known = { kinds, yields, masses, ladder: once(() => ladderOf(kinds, this.laid, this.along(length), this.fills)) };
      this.lengths.set(length, known);
    }
    return known;
  }

  private kindsOf(length: number): TierKind[] {
    const { laid, rules } = this;
    const limit = laid.limit ?? rules.limit;
    const height = this.sides.height;
    const kinds: TierKind[] = [];
    for (const steel of this.steels) {
      const mass = (steel.heaviest * length) / 1000;
      const most = Math.min(rules.maxBars, Math.floor((limit - rules.wrapping) / mass + 1e-9));
      const least = Math.ceil(((laid.leastBundle ?? 0) - rules.wrapping) / mass - 1e-9);
      const sag = sagOf(steel.bow, length);
      for (const onEdge of lies(steel.section)) {
        for (let rows = 1; ; rows++) {
          const whole = tierKind(steel, onEdge, rows, most, rules, sag);
          if (!whole || whole.up > height + 1e-9) break;
          if (whole.up <= ON_BOTTOM) continue;
          const kind = heavyEnough(whole, least);
          if (kind.ties.length > 0) kinds.push(this.kinds.kept(kind));
        }
      }
    }
    return kinds.sort((p, q) => p.up - q.up);
  }

  /** The space of a run of bundles of `length` mm that begins `from` mm along. */
  space(from: number, length: number): RunSpace {
    const { laid } = this;
    const along = this.along(length);
    const space = envelope(laid, from, from + along);
    const { kinds, ladder, yields, masses } = this.of(length);
    const run: RunSpace = {
      length,
      along,
      gap: laid.gap.across,
      wrap: this.rules.wrap,
      space,
      kinds,
      widest: (kind, up) => openingOf(laid, along, kind.up, up),
      yields,
      scarce: false,
      uniform: false,
      fills: [],
      ladder,
      map: once(
        () => new RiseMap(this.sides.profile(from, from + along), blocksIn(laid, from, from + along), ladder()),
      ),
      masses,
      wrapping: this.rules.wrapping,
      rest: restOf(laid, from, from + along),
      riser: this.riser,
    };
    run.uniform = space.uniform && passesAlike(laid, along) && run.rest.most === Number.POSITIVE_INFINITY;
    if (run.uniform) fillUniform(run, this.kinds);
    return run;
  }
}

function fillUniform(run: RunSpace, book: KindBook): void {
  const { space, kinds, yields } = run;
  const [interval] = space.clear(space.bottom, space.top);
  run.fills = kinds.map((kind) => (interval ? fillsOf(run, book, kind, width(interval)) : []));
  run.scarce = kinds.some((kind, i) => {
    const most = Math.max(0, ...run.fills[i]!.map((fill) => fill.bars));
    return most * Math.floor((space.top - space.bottom) / kind.up + 1e-9) > yields[kind.steel]!;
  });
}

/** The fills of a kind over the whole width, none with more bars than the pile could yield. */
function fillsOf(run: RunSpace, book: KindBook, kind: TierKind, across: number): Fill[] {
  const all = book.fillsOf(kind, run.widest(kind, run.space.bottom), across);
  const most = run.yields[kind.steel]!;
  // Each has more bars than the one before.
  if ((all.at(-1)?.bars ?? 0) <= most) return all;
  const fills: Fill[] = [];
  for (const fill of all) {
    const capped = capFill(kind, fill, most);
    if (capped && capped.bars > (fills[fills.length - 1]?.bars ?? 0)) fills.push(capped);
  }
  return fills;
}

/** The kind without the ties of fewer than `least` bars. */
function heavyEnough(kind: TierKind, least: number): TierKind {
  const first = kind.ties.findIndex((tie) => tie.bars >= least);
  if (first === 0) return kind;
  if (first < 0) return { ...kind, ties: [], widths: [] };
  return { ...kind, ties: kind.ties.slice(first), widths: kind.widths.slice(first) };
}

/** Height for tiers, half millimetres. */
export function heightOf(run: RunSpace): number {
  return Math.max(0, Math.floor((run.space.top - run.space.bottom) * 2 + 1e-9));
}

/** The same thing at every call, made at the first. */
function once<Thing>(make: () => Thing): () => Thing {
  let made: { thing: Thing } | null = null;
  return () => {
    made ??= { thing: make() };
    return made.thing;
  };
}
