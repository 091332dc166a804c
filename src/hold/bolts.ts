/**
 * Bolts in tension and in shear, coarse thread. Stress areas and 8.8 proof loads as in ISO 898-1, stainless 0.2 % stresses as in
 * ISO 3506-1 (tables of two suppliers agree): 450 MPa for class 70, 600 MPa for class 80, times the stress area. What the
 * bolt goes through, its edge and its washers are usually weaker than the bolt. In shear, in one plane through the thread,
 * steel yields at 1/√3 of the stress at which it does in tension (the criterion of von Mises). Forces in newtons.
 */
import type { BarAcross, BoltGrade, BoltSize } from '../job/holdDown.ts';
import { BOLT_SIZES } from '../job/holdDown.ts';

/** mm². */
export const STRESS_AREA: Record<BoltSize, number> = { M6: 20.1, M8: 36.6, M10: 58, M12: 84.3, M16: 157 };

const PROOF_8_8: Record<BoltSize, number> = { M6: 11_600, M8: 21_200, M10: 33_700, M12: 48_900, M16: 91_000 };

/** MPa. */
const STAINLESS_STRESS: Record<Exclude<BoltGrade, '8.8'>, number> = {
  'A2-70': 450,
  'A4-70': 450,
  'A2-80': 600,
  'A4-80': 600,
};

/** Newtons one bolt carries without lasting stretch: the proof load, or for stainless the 0.2 % stress. */
export function proofLoad(size: BoltSize, grade: BoltGrade): number {
  return grade === '8.8' ? PROOF_8_8[size] : STAINLESS_STRESS[grade] * STRESS_AREA[size];
}

type Bolts = BarAcross['bolts'];

/** Newtons one bolt carries the way it is pulled without lasting change, see above. */
export function boltLoad({ size, grade, pull }: Pick<Bolts, 'size' | 'grade' | 'pull'>): number {
  return proofLoad(size, grade) / (pull === 'across' ? Math.sqrt(3) : 1);
}

/** The smallest size, alike but for that, that carries `load` newtons; null where none of the table does. */
export function leastBolt(bolts: Pick<Bolts, 'grade' | 'pull'>, load: number): BoltSize | null {
  return BOLT_SIZES.find((size) => boltLoad({ ...bolts, size }) >= load) ?? null;
}

/**
 * How many bolts of a bar across count, as if all had the same: of an odd number the end with one fewer decides, and the
 * bolt left over adds nothing. Each end has half of them.
 */
export function boltsSharing(perBar: number): number {
  return 2 * Math.floor(perBar / 2);
}
