/**
 * Who lifts a bundle into a void, seen from the side and dimensioned: faint where the lift starts, solid where it ends,
 * with the void drawn so that its bottom is where the hands end. The figure is 1.70 m tall and nobody in particular; only
 * the reach and the heights that are written on it count.
 */
import type { Void } from '../job/job.ts';
import type { Lift } from '../lift/equation.ts';
import type { Units } from '../units.ts';
import { voidTitle } from './laid.ts';
import { textWidth } from './letter.ts';
import { PERSON_WORDS as W } from './personWords.ts';
import { HEAD_RADIUS, type Joint, type Pose, poseFor } from './pose.ts';
import { chooseScale, dimensionAcross, dimensionUp, lengthOn, withUnit } from './scale.ts';
import { circle, group, line, type Point, polygon, type Role, rect, type Scene, type Shape, text } from './scene.ts';

export interface PersonOptions {
  /** Room for the picture, mm. */
  width: number;
  height: number;
  units?: Units;
}

const MARGIN = { left: 4, right: 26, top: 3, bottom: 21 };
/** Ground drawn behind the heels, mm of the real thing. */
const BEHIND = 420;
const BUNDLE = { across: 120, up: 70 };
const LIMB = { shank: 52, thigh: 70, trunk: 105, upperArm: 42, forearm: 34 };

type Place = (x: number, y: number) => Point;

/** The picture of one lift into `space`; `lift` as the equation takes it. */
export function personScene(space: Void, lift: Lift, options: PersonOptions): Scene {
  const { reach, start, end, reachEnd = reach, posture = 'standing', hands = 2 } = lift;
  const units = options.units ?? 'metric';
  const before = poseFor(posture, { x: reach, y: start });
  const after = poseFor(posture, { x: reachEnd, y: end });
  const opening = space.opening ? Math.min(space.opening.along, space.opening.across) : space.width;
  const wide = Math.max(space.width, opening);
  const box = { from: reachEnd - wide / 2, to: reachEnd + wide / 2, bottom: end, top: end + space.height };
  const edges = boundsOf([before, after], box);
  const room = { x: options.width - MARGIN.left - MARGIN.right, y: options.height - MARGIN.top - MARGIN.bottom };
  const scale = chooseScale(edges.right - edges.left, edges.top - edges.bottom, room.x, room.y);
  const place: Place = (x, y) => ({
    x: MARGIN.left + (x - edges.left) / scale,
    y: MARGIN.top + (edges.top - y) / scale,
  });

  const hole = space.opening ? W.opening(lengthOn(units, opening)) : W.voidWide(lengthOn(units, space.width));
  const notes = [`${W.posture[posture]}, ${W.hands(hands)}; ${hole}`];
  if (!after.reaches || !before.reaches) notes.unshift(W.beyond);
  const words = Math.max(...notes.map((note) => textWidth(note, 2.6)));
  const width = MARGIN.left + Math.max((edges.right - edges.left) / scale + MARGIN.right, words + 1);
  const height = MARGIN.top + (edges.top - edges.bottom) / scale + MARGIN.bottom;
  const shapes: Shape[] = [
    ...ground(box, edges, place),
    ...voidShapes(box, opening, place),
    group({ x: 0, y: 0 }, outlineOf(before, place)),
    group({ x: 0, y: 0 }, bodyOf(after, posture === 'seated', scale, place)),
    ...load({ x: reachEnd, y: end }, scale, place),
    ...heights(lift, edges, place, units),
    ...reaches(reach, reachEnd, start, end, edges, place, units),
  ];
  shapes.push(
    ...notes.map((note, n) => text('note', MARGIN.left, height - 1 - 3.4 * (notes.length - 1 - n), note, 2.6)),
  );
  return {
    width,
    height,
    title: W.title(voidTitle(space)),
    description: W.inWords(
      W.posture[posture],
      W.hands(hands),
      withUnit(units, reach),
      withUnit(units, start),
      withUnit(units, end),
    ),
    shapes,
  };
}

interface Edges {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

interface Box {
  from: number;
  to: number;
  bottom: number;
  top: number;
}

function boundsOf(poses: Pose[], box: Box): Edges {
  const joints = poses.flatMap((pose) => [
    pose.ankle,
    pose.knee,
    pose.hip,
    pose.shoulder,
    pose.head,
    pose.elbow,
    pose.hand,
  ]);
  const [xs, ys] = [joints.map((joint) => joint.x), joints.map((joint) => joint.y)];
  return {
    left: Math.min(-BEHIND, ...xs) - HEAD_RADIUS,
    right: Math.max(box.to, ...xs) + HEAD_RADIUS + 60,
    top: Math.max(box.top, ...ys) + HEAD_RADIUS + 20,
    bottom: Math.min(0, box.bottom, ...ys) - 40,
  };
}

/** The ground stood on, which stops at a void that reaches below it. */
function ground(box: Box, edges: Edges, place: Place): Shape[] {
  const level = (from: number, to: number): Shape => {
    const [a, b] = [place(from, 0), place(to, 0)];
    return line('void', a.x, a.y, b.x, b.y);
  };
  if (box.bottom >= 0) return [level(edges.left, edges.right)];
  return [level(edges.left, Math.max(box.from, edges.left)), level(box.to, edges.right)];
}

/** Bottom, sides, and what the opening leaves of the top. */
function voidShapes(box: Box, opening: number, place: Place): Shape[] {
  const lip = (box.to - box.from - opening) / 2;
  const corners: [number, number][] = [
    [box.from + lip, box.top],
    [box.from, box.top],
    [box.from, box.bottom],
    [box.to, box.bottom],
    [box.to, box.top],
    [box.to - lip, box.top],
  ];
  return [{ kind: 'polyline', role: 'void', points: corners.map(([x, y]) => place(x, y)) }];
}

/** Where the lift starts: head, back and arms as lines. */
function outlineOf(pose: Pose, place: Place): Shape[] {
  const joints = [pose.ankle, pose.knee, pose.hip, pose.shoulder, pose.elbow, pose.hand];
  const head = place(pose.head.x, pose.head.y);
  const edge = place(pose.head.x + HEAD_RADIUS, pose.head.y);
  return [
    { kind: 'polyline', role: 'keep', points: joints.map((joint) => place(joint.x, joint.y)) },
    circle('keep', head.x, head.y, edge.x - head.x),
  ];
}

/** Where the lift ends: every limb a tapered piece, the far ones left out. */
function bodyOf(pose: Pose, seated: boolean, scale: number, place: Place): Shape[] {
  const { ankle, knee, hip, shoulder, head, elbow, hand } = pose;
  const toe = { x: ankle.x + (knee.y < ankle.y ? -110 : 150), y: Math.max(25, ankle.y - 45) };
  const limb = (a: Joint, b: Joint, thick: number, thin: number): Shape =>
    taper('chock', a, b, thick / 2, thin / 2, place);
  const joint = (at: Joint, thick: number): Shape => {
    const p = place(at.x, at.y);
    return circle('chock', p.x, p.y, thick / 2 / scale);
  };
  const shapes: Shape[] = [];
  if (seated) {
    const [a, b] = [place(hip.x - 160, hip.y - LIMB.thigh), place(hip.x + 200, 0)];
    shapes.push(rect('hollow', a.x, a.y, b.x - a.x, b.y - a.y));
  }
  const face = place(head.x, head.y);
  shapes.push(
    limb(ankle, toe, 50, 30),
    limb(knee, ankle, LIMB.shank * 1.5, LIMB.shank),
    limb(hip, knee, LIMB.thigh * 1.7, LIMB.shank * 1.5),
    joint(knee, LIMB.shank * 1.5),
    limb(shoulder, head, 60, 60),
    limb(hip, shoulder, LIMB.trunk * 1.5, LIMB.trunk * 1.7),
    joint(hip, LIMB.trunk * 1.5),
    joint(shoulder, LIMB.trunk * 1.2),
    circle('chock', face.x, face.y, HEAD_RADIUS / scale),
    limb(shoulder, elbow, LIMB.upperArm * 1.8, LIMB.upperArm * 1.4),
    limb(elbow, hand, LIMB.forearm * 1.6, LIMB.forearm),
    joint(elbow, LIMB.upperArm * 1.4),
    joint(hand, LIMB.forearm * 1.5),
  );
  return shapes;
}

function taper(role: Role, a: Joint, b: Joint, halfA: number, halfB: number, place: Place): Shape {
  const length = Math.max(1, Math.hypot(b.x - a.x, b.y - a.y));
  const [nx, ny] = [-(b.y - a.y) / length, (b.x - a.x) / length];
  return polygon(role, [
    place(a.x + nx * halfA, a.y + ny * halfA),
    place(b.x + nx * halfB, b.y + ny * halfB),
    place(b.x - nx * halfB, b.y - ny * halfB),
    place(a.x - nx * halfA, a.y - ny * halfA),
  ]);
}

/** A bundle in the hands where the lift ends; its place, not its size. */
function load(hand: Joint, scale: number, place: Place): Shape[] {
  const corner = place(hand.x - BUNDLE.across / 2, hand.y + BUNDLE.up / 2);
  return [rect('steel', corner.x, corner.y, BUNDLE.across / scale, BUNDLE.up / scale)];
}

/** Heights of the hands over the ground, at the right, each led to by a broken line. */
function heights({ reach, start, end, reachEnd = reach }: Lift, edges: Edges, place: Place, units: Units): Shape[] {
  const right = place(edges.right, 0).x;
  const level = place(0, 0).y;
  return (
    [
      [reach, start, W.start(lengthOn(units, start)), right + 6],
      [reachEnd, end, W.end(lengthOn(units, end)), right + 15],
    ] as const
  ).flatMap(([x, y, words, at]) => {
    const hand = place(x, y);
    const lead = line('guide', hand.x, hand.y, at + 1, hand.y);
    const foot = line('guide', right, level, at + 1, level);
    return [lead, foot, upright(at, Math.min(hand.y, level), Math.max(hand.y, level), words)];
  });
}

/** A dimension with its words along it, or above it where it is too short for them. */
function upright(x: number, top: number, bottom: number, words: string): Shape {
  const size = 2.8;
  if (bottom - top >= textWidth(words, size)) return dimensionUp(x, top, bottom, words, size);
  return group({ x: 0, y: 0 }, [
    dimensionUp(x, top, bottom, '', size),
    text('label', x, top - 1.6, words, size, 'middle'),
  ]);
}

/** The reach from the ankles, below everything; a second line where it differs at the end. */
function reaches(
  reach: number,
  reachEnd: number,
  start: number,
  end: number,
  edges: Edges,
  place: Place,
  units: Units,
): Shape[] {
  const base = place(0, edges.bottom).y;
  const ankle = place(0, 0);
  const rows: [number, number, string][] = [[reach, start, W.reach(lengthOn(units, reach))]];
  if (reachEnd !== reach) rows.push([reachEnd, end, W.reachEnd(lengthOn(units, reachEnd))]);
  return rows.flatMap(([x, y, words], n) => {
    const hand = place(x, y);
    const at = base + 4.5 + 5 * n;
    return [
      line('guide', hand.x, hand.y, hand.x, at + 1),
      line('guide', ankle.x, ankle.y, ankle.x, at + 1),
      across(ankle.x, hand.x, at, words),
    ];
  });
}

/** A level dimension, its words over its middle, or as near to it as the frame to the left lets them. */
function across(x1: number, x2: number, y: number, words: string): Shape {
  const size = 2.6;
  const middle = Math.max((x1 + x2) / 2, textWidth(words, size) / 2);
  return group({ x: 0, y: 0 }, [
    dimensionAcross(x1, x2, y, '', size),
    text('label', middle, y - 0.7, words, size, 'middle'),
  ]);
}
