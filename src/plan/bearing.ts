/**
 * What stands on each bearer of a void, and on each metre of a run. Every bundle of a run, whatever its tier, is mass
 * spread evenly over its length, on the bearers whose middle the ground tier covers. It is cut at every inner bearer; each
 * part, with what overhangs at an end, is shared by the lever of its middle between the two bearers beside it. Of three
 * bearers and more the inner ones count a quarter more: over two equal spans a stiff bundle leaves 5/8 of its weight on
 * the middle one, where the parts leave a half. Mm and kg.
 */
import type { Bearer } from '../job/job.ts';
import type { LaidVoid } from '../stow/laid.ts';
import type { Plan, PlanBundle } from './plan.ts';

/** A bearer with what it carries, kg, and the runs that rest on it. */
export interface BearerLoad extends Bearer {
  load: number;
  runs: number[];
}

/** A run with its mass for its length, kg/m. */
export interface RunLoad {
  run: number;
  perMetre: number;
}

const INNER = 1.25;

/** The bearers of a void from along 0 on; none where none are stated. */
export function bearerLoads(laid: LaidVoid, plan: Pick<Plan, 'bundles'>): BearerLoad[] {
  const loads = [...(laid.bearers ?? [])]
    .sort((p, q) => p.along - q.along)
    .map((bearer): BearerLoad => ({ ...bearer, load: 0, runs: [] }));
  for (const [run, bundles] of byRun(laid, plan)) {
    const ground = bundles.filter((bundle) => bundle.tier === 1);
    const under = loads.filter(({ along }) =>
      ground.every(({ at, size }) => at.along <= along && along <= at.along + size.along),
    );
    for (const bearer of under) bearer.runs.push(run);
    const shares = bundles.map((bundle) => sharesOf(bundle, under));
    for (const [i, bearer] of under.entries()) bearer.load += shares.reduce((sum, share) => sum + share[i]!, 0);
  }
  return loads;
}

/** The runs of a void from along 0 on. */
export function runLoads(laid: LaidVoid, plan: Pick<Plan, 'bundles'>): RunLoad[] {
  return byRun(laid, plan).map(([run, bundles]) => {
    const from = Math.min(...bundles.map(({ at }) => at.along));
    const to = Math.max(...bundles.map(({ at, size }) => at.along + size.along));
    return { run, perMetre: (1000 * bundles.reduce((sum, bundle) => sum + bundle.mass, 0)) / (to - from) };
  });
}

function byRun(laid: LaidVoid, plan: Pick<Plan, 'bundles'>): [number, PlanBundle[]][] {
  const runs = new Map<number, PlanBundle[]>();
  for (const bundle of plan.bundles)
    if (bundle.void === laid.void) runs.set(bundle.run, [...(runs.get(bundle.run) ?? []), bundle]);
  return [...runs].sort(([p], [q]) => p - q);
}

/** What one bundle leaves on each of the bearers under it, kg; all on the only one there is. */
function sharesOf({ at, size, mass }: PlanBundle, under: readonly Bearer[]): number[] {
  const places = under.map(({ along }) => along);
  return leverShares({ from: at.along, to: at.along + size.along }, places).map((share) => share * mass);
}

/**
 * Of a weight spread evenly over a length, what comes on each of `places`, which rise and of which no two are one: together
 * a little over 1 where there are inner ones. One may be less than nothing where the length overhangs far past another.
 */
export function leverShares({ from, to }: { from: number; to: number }, places: readonly number[]): number[] {
  if (places.length < 2) return places.map(() => 1);
  const shares = places.map(() => 0);
  const last = places.length - 2;
  for (let i = 0; i <= last; i++) {
    const [p, q] = [places[i]!, places[i + 1]!];
    const start = i === 0 ? from : p;
    const end = i === last ? to : q;
    const part = (end - start) / (to - from);
    const onNext = ((start + end) / 2 - p) / (q - p);
    shares[i]! += part * (1 - onNext) * (i === 0 ? 1 : INNER);
    shares[i + 1]! += part * onNext * (i === last ? 1 : INNER);
  }
  return shares;
}
