/**
 * Profiles: the clear space over a stretch of a void, put down at every half millimetre of height, so that thousands of
 * stretches can be reckoned with. `envelope.ts` states the same space exactly; where a reading lies between two half
 * millimetres a profile may be a hair wider. Heights and places across are counted in half millimetres here.
 */
import type { KeepOut } from '../job/job.ts';
import { drainIn } from './drain.ts';
import { ceilHalf, floorHalf } from './half.ts';
import type { LaidVoid } from './laid.ts';

/** The clear space between the sides over a stretch; what is to be stayed off is told apart, as blocks. */
export interface Profile {
  /** The raised bottom and the top, half mm above the void's bottom. */
  bottom: number;
  top: number;
  /** Clear sides at every height from 0 to `top`: the least and the greatest place across, half mm. */
  from: Int32Array;
  to: Int32Array;
  /** Heights at which a side stands further in than below and above them, rising; of a ledge, its foot. */
  pinches: { from: number[]; to: number[] };
  /** True where neither side ever comes in with the height: the narrowest place of a tier is at its foot. */
  flares: boolean;
  /** True where the sides are alike at every height. */
  upright: boolean;
  /** What the drain keeps free. */
  drain: Block[];
}

/** Something to stay off over the whole of a stretch. Half mm. */
export interface Block {
  from: number;
  to: number;
  low: number;
  high: number;
}

interface StationSides {
  along: number;
  bottom: number;
  from: Float64Array;
  to: Float64Array;
}

/** The sides of a void, its stations put down at every half millimetre of height once. */
export class Sides {
  private readonly laid: LaidVoid;
  private readonly stations: StationSides[];
  private readonly top: number;
  private readonly box: Profile | null;
  private readonly flares: boolean;
  /** The widest clear place, half mm. */
  readonly widest: number;

  constructor(laid: LaidVoid) {
    this.laid = laid;
    this.top = Math.max(0, Math.floor((laid.height - laid.clear.top) * 2 + 1e-9));
    this.stations = laid.stations ? stationSides(laid.stations, this.top) : [];
    this.flares = this.stations.every(({ from, to }) => opens(from, -1) && opens(to, 1));
    this.box = laid.stations ? null : this.boxProfile();
    const widths = this.stations.map(({ from, to }) =>
      to.reduce((most, place, h) => Math.max(most, place - from[h]!), 0),
    );
    const widest = laid.stations ? Math.max(...widths) : laid.width;
    this.widest = Math.max(0, Math.ceil((widest - 2 * laid.clear.sides) * 2));
  }

  /** Height between the lowest raised bottom and the top, mm. */
  get height(): number {
    const lowest = this.stations.length > 0 ? Math.min(...this.stations.map(({ bottom }) => bottom)) : 0;
    return this.top / 2 - ceilHalf(lowest + this.laid.dunnage);
  }

  /** True where every stretch has the same profile. */
  get straight(): boolean {
    return this.box !== null;
  }

  /** The profile from `from` to `to` mm along. Cost: the height in half millimetres for each station in the stretch. */
  profile(from: number, to: number): Profile {
    if (this.box) return this.box;
    const { sides } = this.laid.clear;
    const places = [from, to, ...this.stations.map(({ along }) => along).filter((along) => along > from && along < to)];
    const [first, ...others] = places.map((along) => this.at(along));
    const left = first!.from;
    const right = first!.to;
    let bottom = first!.bottom;
    for (const other of others) {
      bottom = Math.max(bottom, other.bottom);
      for (let h = 0; h <= this.top; h++) {
        if (other.from[h]! > left[h]!) left[h] = other.from[h]!;
        if (other.to[h]! < right[h]!) right[h] = other.to[h]!;
      }
    }
    const clear: Profile = {
      bottom: Math.round(ceilHalf(bottom + this.laid.dunnage) * 2),
      top: this.top,
      from: new Int32Array(this.top + 1),
      to: new Int32Array(this.top + 1),
      pinches: { from: [], to: [] },
      flares: this.flares,
      upright: false,
      drain: blocksOf(drainIn(this.laid, from, to)),
    };
    for (let h = 0; h <= this.top; h++) {
      clear.from[h] = Math.ceil((left[h]! + sides) * 2 - 1e-9);
      clear.to[h] = Math.floor((right[h]! - sides) * 2 + 1e-9);
    }
    if (!clear.flares) clear.pinches = { from: pinchesOf(clear.from, 1), to: pinchesOf(clear.to, -1) };
    return clear;
  }

  /** The sides at one place along, by the words of the job format: linear between stations. */
  private at(along: number): { from: Float64Array; to: Float64Array; bottom: number } {
    const { stations } = this;
    let after = stations.findIndex((station) => station.along >= along);
    if (after < 0) after = stations.length - 1;
    const p = stations[Math.max(0, after - 1)]!;
    const q = stations[after]!;
    const share = q.along === p.along ? 1 : Math.min(1, Math.max(0, (along - p.along) / (q.along - p.along)));
    const mix = (a: Float64Array, b: Float64Array) => {
      const mixed = new Float64Array(a.length);
      for (let h = 0; h < mixed.length; h++) mixed[h] = a[h]! * (1 - share) + b[h]! * share;
      return mixed;
    };
    return { from: mix(p.from, q.from), to: mix(p.to, q.to), bottom: p.bottom * (1 - share) + q.bottom * share };
  }

  private boxProfile(): Profile {
    const { width, clear, dunnage } = this.laid;
    const count = this.top + 1;
    return {
      bottom: Math.round(ceilHalf(dunnage) * 2),
      top: this.top,
      from: new Int32Array(count).fill(Math.round(ceilHalf(-width / 2 + clear.sides) * 2)),
      to: new Int32Array(count).fill(Math.round(floorHalf(width / 2 - clear.sides) * 2)),
      pinches: { from: [], to: [] },
      flares: true,
      upright: true,
      drain: blocksOf(drainIn(this.laid, 0, this.laid.length)),
    };
  }
}

function stationSides(stations: NonNullable<LaidVoid['stations']>, top: number): StationSides[] {
  return [...stations]
    .sort((p, q) => p.along - q.along)
    .map(({ along, at }) => {
      const readings = [...at].sort((p, q) => p.up - q.up);
      const from = new Float64Array(top + 1);
      const to = new Float64Array(top + 1);
      let i = 0;
      for (let h = 0; h <= top; h++) {
        const up = h / 2;
        while (i < readings.length - 1 && readings[i]!.up < up) i++;
        const q = readings[i]!;
        const p = readings[i - 1];
        const share = up >= q.up ? 1 : p ? (up - p.up) / (q.up - p.up) : 1;
        from[h] = p ? p.from * (1 - share) + q.from * share : q.from;
        to[h] = p ? p.to * (1 - share) + q.to * share : q.to;
      }
      return { along, bottom: readings[0]!.up, from, to };
    });
}

function opens(side: Float64Array, way: 1 | -1): boolean {
  return side.every((place, h) => h === 0 || way * (place - side[h - 1]!) >= -1e-9);
}

/** Where a side, looked at the way in which it comes in, rises to and falls from. */
function pinchesOf(side: Int32Array, way: 1 | -1): number[] {
  const pinches: number[] = [];
  let rose = -1;
  for (let h = 1; h < side.length; h++) {
    const step = way * (side[h]! - side[h - 1]!);
    if (step > 0) rose = h;
    else if (step < 0 && rose >= 0) {
      pinches.push(rose);
      rose = -1;
    }
  }
  return pinches;
}

/** What the keep-outs block in any part of a stretch. */
export function blocksIn(laid: LaidVoid, from: number, to: number): Block[] {
  return blocksOf(laid.keepOut.filter(({ along }) => along[0] < to && from < along[1]));
}

/** What the keep-outs listed block, in the order of their places across. */
export function blocksOf(keepOuts: KeepOut[]): Block[] {
  return keepOuts
    .map(({ across, up, access }) => ({
      from: Math.floor(across[0] * 2 + 1e-9),
      to: Math.ceil(across[1] * 2 - 1e-9),
      low: up[0] * 2,
      high: access ? Number.POSITIVE_INFINITY : up[1] * 2,
    }))
    .sort((p, q) => p.from - q.from);
}

/**
 * The free widths, half mm, for a bundle standing from `low` to `high` over the whole stretch, in order, written to
 * `widths`; returns how many there are.
 */
export function freeWidths(profile: Profile, blocks: Block[], low: number, high: number, widths: Int32Array): number {
  let from = profile.from[low]!;
  let to = profile.to[low]!;
  if (!profile.flares) {
    // A side stands furthest in at the foot, at the top, or at a pinch between.
    from = Math.max(from, profile.from[high]!);
    to = Math.min(to, profile.to[high]!);
    for (const h of profile.pinches.from) if (h > low && h < high && profile.from[h]! > from) from = profile.from[h]!;
    for (const h of profile.pinches.to) if (h > low && h < high && profile.to[h]! < to) to = profile.to[h]!;
  }
  let count = 0;
  for (let i = 0; i < blocks.length; i++) {
    const block = blocks[i]!;
    if (block.low >= high || block.high <= low || block.to <= from || block.from >= to) continue;
    if (block.from > from && count < widths.length) widths[count++] = block.from - from;
    from = block.to;
  }
  if (to > from && count < widths.length) widths[count++] = to - from;
  return count;
}
