/** Voids that lie over each other: what goes into the upper one bars the way to what lies in the lower. */
import type { Job } from '../job/job.ts';
import { layVoid, vesselPoint } from '../stow/laid.ts';
import type { Plan, PlanBundle } from './plan.ts';

/** An upper one may reach so far down into a lower one and still lie over it, m: as one bundle on another. */
const RESTING = 0.002;

/** What the bundles of one void take up together, m in the vessel. */
interface Extent {
  void: string;
  low: { x: number; y: number; z: number };
  high: { x: number; y: number; z: number };
}

/** Of each void the bundles of which lie over those of others, by any part of their plan and all of them higher: the others. */
export function voidsUnder(job: Job, plan: Pick<Plan, 'voids' | 'bundles'>): Map<string, string[]> {
  const extents = job.voids.flatMap((space) => {
    const own = plan.bundles.filter((bundle) => bundle.void === space.void);
    return own.length === 0 ? [] : [extentOf(job, plan, space.void, own)];
  });
  const under = extents.map((upper): [string, string[]] => [
    upper.void,
    extents.filter((lower) => liesOver(upper, lower)).map((lower) => lower.void),
  ]);
  return new Map(under.filter(([, lower]) => lower.length > 0));
}

function liesOver(upper: Extent, lower: Extent): boolean {
  return (
    upper.low.z >= lower.high.z - RESTING &&
    upper.low.x < lower.high.x &&
    lower.low.x < upper.high.x &&
    upper.low.y < lower.high.y &&
    lower.low.y < upper.high.y
  );
}

function extentOf(job: Job, plan: Pick<Plan, 'voids'>, name: string, bundles: readonly PlanBundle[]): Extent {
  const ways = layVoid(job.voids.find((space) => space.void === name)!);
  const axis = plan.voids.find((entry) => entry.void === name)?.axis;
  const laid = ways.find((way) => way.axis === axis) ?? ways[0]!;
  const corners = bundles.flatMap(({ at, size }) => [
    vesselPoint(laid, at.along, at.across, at.up),
    vesselPoint(laid, at.along + size.along, at.across + size.across, at.up + size.up),
  ]);
  const least = (side: 'x' | 'y' | 'z') => corners.reduce((low, corner) => Math.min(low, corner[side]), Infinity);
  const most = (side: 'x' | 'y' | 'z') => corners.reduce((high, corner) => Math.max(high, corner[side]), -Infinity);
  return {
    void: name,
    low: { x: least('x'), y: least('y'), z: least('z') },
    high: { x: most('x'), y: most('y'), z: most('z') },
  };
}
