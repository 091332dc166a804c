/** What the ground tier rests on: bearers under every bundle, the load on each, and the load for the length of a run. */
import type { Bearer } from '../../job/job.ts';
import type { Tied } from './bundles.ts';
import { DUST, DUST_KG, figure, type Tell } from './planFault.ts';
import type { LaidVoid } from './space.ts';

/** The most of its length that a bundle may lie past the outer bearer. */
const PAST = 0.25;
/** A stiff bundle over three bearers and more loads the inner ones so much more than cut at each of them. */
const INNER = 1.25;

/** Checks all bundles of one void against its bearers and its most for each metre. */
export function checkCarry(space: LaidVoid, bundles: Tied[], tell: Tell): void {
  const { bearers, mostPerMetre } = space.stated;
  const sorted = [...(bearers ?? [])].sort((p, q) => p.along - q.along);
  const carried = sorted.map(() => 0);
  for (const run of new Set(bundles.map((tied) => tied.bundle.run))) {
    const own = bundles.filter((tied) => tied.bundle.run === run);
    const from = Math.min(...own.map((tied) => tied.along[0]));
    const to = Math.max(...own.map((tied) => tied.along[1]));
    const mass = own.reduce((sum, tied) => sum + tied.mass, 0);
    const most = ((mostPerMetre ?? Number.POSITIVE_INFINITY) * (to - from)) / 1000;
    if (mass > most + DUST_KG)
      tell(
        'over-metre',
        `run ${run} of ${space.void}`,
        `Run ${run} of ${space.void} weighs ${figure(mass, most)} kg; its length carries ${figure(most, mass)} kg.`,
        mass - most,
      );
    if (sorted.length > 0) restRun(sorted, own, carried, tell);
  }
  for (const [i, { along, most = Number.POSITIVE_INFINITY }] of sorted.entries())
    if (carried[i]! > most + DUST_KG)
      tell(
        'over-bearer',
        `void ${space.void}`,
        `The bearer at ${along} mm in ${space.void} carries ${figure(carried[i]!, most)} kg, its most is ${most}.`,
        carried[i]! - most,
      );
}

/** Checks that a run lies well on its bearers, and adds its load to `carried`. */
function restRun(bearers: Bearer[], own: Tied[], carried: number[], tell: Tell): void {
  const ground = own.filter((tied) => tied.bundle.tier === 1);
  const under = bearers.flatMap(({ along }, i) =>
    ground.every((tied) => tied.along[0] <= along + DUST && along <= tied.along[1] + DUST) ? [{ along, i }] : [],
  );
  const first = under[0];
  const last = under.at(-1);
  if (!first || !last || first === last) {
    const found = first ? 'one bearer' : 'no bearer';
    for (const { bundle } of ground)
      tell('not-on-bearers', `bundle ${bundle.bundle}`, `${bundle.bundle} rests on ${found}, not on two.`);
    return;
  }
  for (const { bundle, along } of ground) {
    const about = `bundle ${bundle.bundle}`;
    const middle = (along[0] + along[1]) / 2;
    const past = Math.max(first.along - along[0], along[1] - last.along) - PAST * (along[1] - along[0]);
    if (middle < first.along - DUST || middle > last.along + DUST)
      tell('not-on-bearers', about, `The middle of ${about} is not between its bearers.`);
    else if (past > DUST)
      tell('not-on-bearers', about, `${about} lies ${figure(past)} mm more than a quarter past a bearer.`, past);
  }
  for (const { along, mass } of own) {
    const perMm = mass / (along[1] - along[0]);
    for (let n = 0; n + 1 < under.length; n++) {
      const [p, q] = [under[n]!, under[n + 1]!];
      const from = n === 0 ? along[0] : p.along;
      const to = n + 2 === under.length ? along[1] : q.along;
      const onNext = ((from + to) / 2 - p.along) / (q.along - p.along);
      const part = perMm * (to - from);
      carried[p.i]! += part * (1 - onNext) * (n === 0 ? 1 : INNER);
      carried[q.i]! += part * onNext * (n + 2 === under.length ? 1 : INNER);
    }
  }
}
