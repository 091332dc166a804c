/** What the page of weighed masses shows: void by void, bundle by bundle, reckoned beside weighed. */
import type { Job } from '../../src/job/job.ts';
import type { WeighedMasses } from '../../src/plan/massNow.ts';
import type { Overload } from '../../src/plan/overloads.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { sumWeighed, type Weighing, weighedOverloads, weighingsOf } from '../paper/weighing.ts';
import type { Words } from '../words.ts';

/** A text that is no mass, or a mass that is asked about, as it was typed and not kept. */
export interface UnreadMass {
  typed: string;
  /** True where the same once more is kept. */
  isAsked?: boolean;
  message: string;
  remedy: string;
}

export interface WeighedLine extends Weighing {
  /** Number of the bundle in the plan's list, from 0; its field is `mass.N`. */
  index: number;
  value: string;
  /** The mass kept, as its field shows it. */
  told: string;
  unread: UnreadMass | null;
}

export interface WeighedVoid {
  void: string;
  name: string;
  bundles: number;
  reckoned: number;
  weighed: { count: number; mass: number };
  lines: WeighedLine[];
}

export interface WeighedView {
  voids: WeighedVoid[];
  /** Of all bundles, also of voids not shown. */
  bundles: number;
  weighed: { count: number; mass: number };
  reckoned: number;
  /** Those that want looking into, of all voids. */
  beyond: Weighing[];
  overLimit: Weighing[];
  overloads: Overload[];
}

/** `shown` names the voids whose bundles are listed. */
export function showWeighed(
  job: Job,
  plan: Plan,
  masses: WeighedMasses,
  unread: ReadonlyMap<string, UnreadMass>,
  shown: ReadonlySet<string>,
): WeighedView {
  const index = new Map(plan.bundles.map((bundle, n) => [bundle.bundle, n]));
  const weighings = weighingsOf(job, plan, masses);
  const voids = job.voids
    .filter((space) => shown.has(space.void))
    .map((space) => {
      const here = weighings.filter((each) => each.bundle.void === space.void);
      const lines = here.map((each) => {
        const bad = unread.get(each.bundle.bundle) ?? null;
        const told = each.weighed === null ? '' : String(each.weighed);
        return { ...each, index: index.get(each.bundle.bundle) ?? 0, value: bad?.typed ?? told, told, unread: bad };
      });
      return {
        void: space.void,
        name: space.name,
        bundles: here.length,
        reckoned: sumReckoned(here),
        weighed: sumWeighed(here),
        lines,
      };
    });
  return {
    voids,
    bundles: weighings.length,
    weighed: sumWeighed(weighings),
    reckoned: sumReckoned(weighings.filter((each) => each.weighed !== null)),
    beyond: weighings.filter((each) => each.beyond),
    overLimit: weighings.filter((each) => each.overLimit),
    overloads: weighedOverloads(job, plan, masses),
  };
}

function sumReckoned(weighings: readonly Weighing[]): number {
  return weighings.reduce((sum, each) => sum + each.bundle.mass, 0);
}

/** Bundles over the lift limit, by ranges of their marks where void and limit are the same: of each the heaviest. */
export function overLines(heavy: readonly Weighing[], words: Words): string[] {
  const alike = new Map<string, Weighing[]>();
  for (const each of heavy) {
    const key = `${each.bundle.limit} ${each.bundle.void}`;
    alike.set(key, [...(alike.get(key) ?? []), each]);
  }
  return [...alike.values()].map((some) => {
    const marks = markRanges(some.map(({ bundle }) => bundle.bundle)).join(', ');
    const most = Math.max(...some.map(({ weighed }) => weighed ?? 0));
    const weigh = some.length === 1 ? 'weighs' : 'weigh up to';
    return `${marks} ${weigh} ${words.kilograms(most)}, limit ${words.limit(some[0]?.bundle.limit ?? 0)}`;
  });
}
