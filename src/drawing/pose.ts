/**
 * How a drawn person reaches: joints in the plane seen from their side, mm, x forward of the middle of the ankles and y
 * above the ground stood on. Proportions and ways of bending are a drawing's own, of somebody 1.70 m tall; nothing is
 * reckoned from them. They only show what the figures typed ask of a body.
 */
import type { Posture } from '../lift/equation.ts';

export interface Joint {
  x: number;
  y: number;
}

export interface Pose {
  ankle: Joint;
  knee: Joint;
  hip: Joint;
  shoulder: Joint;
  head: Joint;
  elbow: Joint;
  hand: Joint;
  /** False where the drawn arms do not come so far. */
  reaches: boolean;
}

/** Lengths between the joints. */
const BODY = { ankle: 70, shank: 400, thigh: 420, trunk: 500, neck: 185, upperArm: 290, forearm: 375 } as const;
export const HEAD_RADIUS = 98;
const ARM = 0.985 * (BODY.upperArm + BODY.forearm);
const STEPS = 60;
const BENT_MOST = 118;

/** The least bent pose in which the hands come to `hand`; bent as far as it goes where none does. */
export function poseFor(posture: Posture, hand: Joint): Pose {
  let pose = bentBy(posture, 0, hand);
  for (let step = 1; step <= STEPS && !pose.reaches; step++) pose = bentBy(posture, step / STEPS, hand);
  return pose;
}

/** `bent` from 0, upright, to 1: first the back, then the knees. */
function bentBy(posture: Posture, bent: number, hand: Joint): Pose {
  const lean = radians(BENT_MOST * Math.min(1, bent * 1.4));
  const low = Math.max(0, (bent - 0.35) / 0.65);
  const { ankle, knee, hip } = legs(posture, lean, low);
  const shoulder = { x: hip.x + BODY.trunk * Math.sin(lean), y: hip.y + BODY.trunk * Math.cos(lean) };
  // The face stays a little more upright than the back.
  const nod = lean * 0.85;
  const head = { x: shoulder.x + BODY.neck * Math.sin(nod), y: shoulder.y + BODY.neck * Math.cos(nod) };
  const reaches = distance(shoulder, hand) <= ARM;
  return { ankle, knee, hip, shoulder, head, elbow: elbowOf(shoulder, hand), hand, reaches };
}

function legs(posture: Posture, lean: number, low: number): Pick<Pose, 'ankle' | 'knee' | 'hip'> {
  if (posture === 'kneeling') {
    const knee = { x: BODY.shank * 0.95, y: 55 };
    const back = radians(10 + 50 * low);
    const hip = { x: knee.x - BODY.thigh * Math.sin(back), y: knee.y + BODY.thigh * Math.cos(back) };
    return { ankle: { x: 0, y: 75 }, knee, hip };
  }
  const ankle = { x: 0, y: BODY.ankle };
  if (posture === 'seated') {
    const knee = { x: 20, y: BODY.ankle + BODY.shank };
    return { ankle, knee, hip: { x: knee.x - BODY.thigh * 0.97, y: knee.y + 30 } };
  }
  const tall = BODY.shank + BODY.thigh;
  const hip = { x: -150 * Math.sin(lean) - 170 * low, y: BODY.ankle + tall * (0.995 - 0.5 * low) };
  return { ankle, knee: bend(ankle, hip, BODY.shank, BODY.thigh, 1), hip };
}

function elbowOf(shoulder: Joint, hand: Joint): Joint {
  const sides = [
    bend(shoulder, hand, BODY.upperArm, BODY.forearm, 1),
    bend(shoulder, hand, BODY.upperArm, BODY.forearm, -1),
  ];
  // An elbow hangs down and back.
  const [one, other] = sides as [Joint, Joint];
  return one.y + one.x <= other.y + other.x ? one : other;
}

/** The joint between two limbs of given length from `from` to `to`; straight where they do not reach. */
function bend(from: Joint, to: Joint, first: number, second: number, side: 1 | -1): Joint {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const apart = Math.max(1, Math.sqrt(dx * dx + dy * dy));
  const along =
    apart >= first + second
      ? (apart * first) / (first + second)
      : (first * first - second * second + apart * apart) / (2 * apart);
  const off = Math.sqrt(Math.max(0, first * first - along * along)) * (apart >= first + second ? 0 : side);
  return { x: from.x + (dx * along + dy * off) / apart, y: from.y + (dy * along - dx * off) / apart };
}

function distance(a: Joint, b: Joint): number {
  return Math.sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}

function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}
