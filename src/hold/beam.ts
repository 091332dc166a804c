/**
 * A bar across the stow as a beam held at both ends: M = F·L/4 and deflection F·L³/(48·E·I) where the load is in the
 * middle, F·L/8 and 5·F·L³/(384·E·I) where it is spread; Z = b·t²/6 and I = b·t³/12 flat on its face, turned on edge the
 * two change places. Standard theory of beams; E 205 GPa. N, mm and MPa.
 */
import type { BarAcross } from '../job/holdDown.ts';

const YOUNG = 205_000;

type Shape = Pick<BarAcross, 'width' | 'thickness' | 'onEdge'>;

/** Section modulus, mm³, and second moment of area, mm⁴. */
export function stiffnessOf({ width, thickness, onEdge }: Shape): { modulus: number; inertia: number } {
  const [b, t] = onEdge ? [thickness, width] : [width, thickness];
  return { modulus: (b * t * t) / 6, inertia: (b * t * t * t) / 12 };
}

/** Bending moment N·mm, stress MPa and deflection mm of one bar under `force` newtons. */
export function bendingOf(
  bar: Shape & Pick<BarAcross, 'span' | 'load'>,
  force: number,
): { moment: number; stress: number; deflection: number } {
  const { modulus, inertia } = stiffnessOf(bar);
  const cube = bar.span * bar.span * bar.span;
  const moment = (force * bar.span) / (bar.load === 'middle' ? 4 : 8);
  const deflection =
    bar.load === 'middle' ? (force * cube) / (48 * YOUNG * inertia) : (5 * force * cube) / (384 * YOUNG * inertia);
  return { moment, stress: moment / modulus, deflection };
}

/** Newtons on one bar at which its stress is `stress` MPa. */
export function forceAt(bar: Shape & Pick<BarAcross, 'span' | 'load'>, stress: number): number {
  const { modulus } = stiffnessOf(bar);
  return (stress * modulus * (bar.load === 'middle' ? 4 : 8)) / bar.span;
}
