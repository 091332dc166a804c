/**
 * A bar across the stow as a beam held at both ends and pressed on evenly over the length c in the middle of its span L:
 * M = F·(2L − c)/8 and deflection F·(8L³ − 4L·c² + c³)/(384·E·I). With c = 0, a load in the middle, that is F·L/4 and
 * F·L³/(48·E·I); with c = L, all along the span, F·L/8 and 5·F·L³/(384·E·I). Z = b·t²/6 and I = b·t³/12 flat on its face,
 * turned on edge the two change places, and falling over is not reckoned: it is told as a caution (`holdDown.ts`). Standard theory of beams; E 205 GPa. N, mm and MPa.
 */
import type { BarAcross } from '../job/holdDown.ts';

const YOUNG = 205_000;

type Shape = Pick<BarAcross, 'width' | 'thickness' | 'onEdge'>;

/** `pressed`: the c above, mm, no more than the span. */
export type Beam = Shape & Pick<BarAcross, 'span'> & { pressed: number };

/** Section modulus, mm³, and second moment of area, mm⁴. */
export function stiffnessOf({ width, thickness, onEdge }: Shape): { modulus: number; inertia: number } {
  const [b, t] = onEdge ? [thickness, width] : [width, thickness];
  return { modulus: (b * t * t) / 6, inertia: (b * t * t * t) / 12 };
}

/** Bending moment N·mm, stress MPa and deflection mm of one bar under `force` newtons. */
export function bendingOf(beam: Beam, force: number): { moment: number; stress: number; deflection: number } {
  const { modulus, inertia } = stiffnessOf(beam);
  const { span, pressed } = beam;
  const moment = force * arm(beam);
  const cubes = 8 * span * span * span - 4 * span * pressed * pressed + pressed * pressed * pressed;
  return { moment, stress: moment / modulus, deflection: (force * cubes) / (384 * YOUNG * inertia) };
}

/** Newtons on one bar at which its stress is `stress` MPa. */
export function forceAt(beam: Beam, stress: number): number {
  return (stress * stiffnessOf(beam).modulus) / arm(beam);
}

/** Moment over force, mm. */
function arm({ span, pressed }: Beam): number {
  return (2 * span - pressed) / 8;
}
