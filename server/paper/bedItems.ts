/** What lies under the bundles, as the making list has it, and the words that the stowage sheets share with it. */
import { type Bed, partLength } from '../../src/drawing/bed.ts';
import type { Batten } from '../../src/plan/battens.ts';
import type { LaidVoid } from '../../src/stow/laid.ts';
import { figureIn, lengthIn, lengthWithUnit, type Wanted } from './feet.ts';
import { plain } from './figures.ts';
import type { Making } from './makingList.ts';
import { MAKING_WORDS as W } from './makingWords.ts';

/** Matting, battens or blocks, and packing of a void. */
export function bedItems(laid: LaidVoid, runs: Bed[], wanted: Wanted): Making[] {
  const covered = runs.reduce((sum, bed) => sum + bed.matting, 0);
  const matting = {
    group: W.groups.bed,
    what: W.matting(laid.void),
    quantity: figureIn(wanted, covered, 'm²', `${plain(covered, 2)} m²`, 'up'),
    reckoning: runs
      .map((bed) => {
        const size = W.mattingRun(bed.run, lengthIn(wanted, bed.length), lengthIn(wanted, bed.width, 0));
        return [size, ...cutOutsOf(bed, wanted)].join(', ');
      })
      .join('; '),
  };
  if (laid.bearers) return [matting, ...onBearers(laid, runs, wanted)];
  return [matting, ...(laid.dunnage > 0 ? battens(laid, runs, wanted) : []), ...packing(laid, runs, wanted)];
}

/** Battens of the same parts together, with where each lies. */
function battens(laid: LaidVoid, runs: Bed[], wanted: Wanted): Making[] {
  const what = W.battens(laid.void, lengthWithUnit(wanted, laid.dunnage));
  return alikeOf(
    runs,
    (bed) => bed.battens,
    () => '',
  ).map((own) => ({
    group: W.groups.bed,
    what,
    quantity: ofParts(own, wanted),
    reckoning: placesOf(own, wanted),
  }));
}

interface Lying<T extends Batten> {
  bed: Bed;
  wood: T;
}

/** What of all runs is of the same parts and the same `size`, the longest first. */
function alikeOf<T extends Batten>(runs: Bed[], of: (bed: Bed) => T[], size: (wood: T) => string): Lying<T>[][] {
  const alike = new Map<string, Lying<T>[]>();
  for (const bed of runs)
    for (const wood of of(bed)) {
      const key = [size(wood), ...wood.parts.map(partLength)].join(' ');
      alike.set(key, [...(alike.get(key) ?? []), { bed, wood }]);
    }
  const long = (own: Lying<T>[]) => own[0]!.wood.parts.reduce((sum, part) => sum + partLength(part), 0);
  return [...alike.values()].sort((p, q) => long(q) - long(p));
}

/** `run 1 at 100, 343; run 2 at 620 along, -185 to 60 and 130 to 185 across`. */
function placesOf(own: readonly Lying<Batten>[], wanted: Wanted): string {
  const beds = [...new Set(own.map(({ bed }) => bed))];
  return beds
    .flatMap((bed) => {
      const here = own.filter((one) => one.bed === bed).map(({ wood }) => wood);
      return byParts(bed, here, wanted).map(([where, woods]) =>
        W.battensRun(bed.run, woods.map(({ along }) => lengthIn(wanted, along, 0)).join(', '), where),
      );
    })
    .join('; ');
}

function packing(laid: LaidVoid, runs: Bed[], wanted: Wanted): Making[] {
  return runs.flatMap((bed): Making[] => {
    if (!bed.packing) return [];
    const [first, last] = bed.packing;
    return [
      {
        group: W.groups.bed,
        what: W.packing(W.run(laid.void, bed.run)),
        quantity: W.wedge(lengthWithUnit(wanted, first), lengthWithUnit(wanted, last)),
        reckoning: W.packingWhy(lengthWithUnit(wanted, laid.dunnage)),
      },
    ];
  });
}

/** What levels the ground tier on the stated bearers: a block on each, alike ones together. */
function onBearers(laid: LaidVoid, runs: Bed[], wanted: Wanted): Making[] {
  const sizeOf = ({ width, height }: Bed['bearers'][number]) =>
    W.bearerBlock(laid.void, lengthIn(wanted, width), lengthWithUnit(wanted, height, 1));
  return alikeOf(runs, ({ bearers }) => bearers, sizeOf).map((own) => ({
    group: W.groups.bed,
    what: sizeOf(own[0]!.wood),
    quantity: ofParts(own, wanted),
    reckoning: placesOf(own, wanted),
  }));
}

/** `4 of 370 mm`; of such in parts each part: `1 of 245 mm, 1 of 55 mm`. */
function ofParts(own: readonly Lying<Batten>[], wanted: Wanted): string {
  const counts = new Map<number, number>();
  for (const part of own[0]!.wood.parts) counts.set(partLength(part), (counts.get(partLength(part)) ?? 0) + own.length);
  return [...counts].map(([long, n]) => W.pieces(n, lengthWithUnit(wanted, long, 0, 'down'))).join(', ');
}

/** Places along by how the wood lies across there: nothing for right across, else its parts. */
export function byParts<T extends Batten>(bed: Bed, all: readonly T[], wanted: Wanted): [string, T[]][] {
  const groups = new Map<string, T[]>();
  for (const wood of all) {
    const where = isWhole(wood, bed) ? '' : partsAt(wood, wanted);
    groups.set(where, [...(groups.get(where) ?? []), wood]);
  }
  return [...groups].sort(([p], [q]) => Number(p !== '') - Number(q !== ''));
}

/** `cut out 70 × 70 for keel bolt at 520 along, 60 across`, one for each thing that stands on the bed. */
export function cutOutsOf({ cutOuts }: Bed, wanted: Wanted): string[] {
  const mm = (length: number) => lengthIn(wanted, length, 0);
  return cutOuts.map(({ what, along, across }) =>
    W.cutOut(`${mm(along[1] - along[0])} × ${mm(across[1] - across[0])}`, what, mm(along[0]), mm(across[0])),
  );
}

/** `-185 to 60 and 130 to 185 across`. */
function partsAt({ parts }: Batten, wanted: Wanted): string {
  return W.parts(parts.map(({ from, to }) => `${lengthIn(wanted, from, 0)} to ${lengthIn(wanted, to, 0)}`));
}

/** True of one over the whole breadth of its run's bed. */
function isWhole({ parts }: Batten, bed: Bed): boolean {
  return parts.length === 1 && partLength(parts[0]!) === Math.floor(bed.width);
}
