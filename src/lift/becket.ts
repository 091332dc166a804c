/** The loops of rope by which a bundle is lifted. */

/** Bundles longer than this are lifted by two beckets, mm: a default of this project. */
const TWO_FROM = 600;
/** Cord that a knot takes, in diameters of the cord. */
const KNOT = 10;

/** How many beckets a bundle has, and the cord of one and of all, mm, rounded up to 10. */
export interface Beckets {
  count: number;
  each: number;
  cord: number;
}

/** The beckets of a bundle: each goes once round its girth, stands `grip` mm high as a loop, and is knotted. */
export function becketsOf(
  size: { along: number; across: number; up: number },
  rules: { cord: number; grip: number },
): Beckets {
  const girth = 2 * (size.across + size.up);
  const each = Math.ceil((girth + 2 * rules.grip + KNOT * rules.cord) / 10) * 10;
  const count = size.along > TWO_FROM ? 2 : 1;
  return { count, each, cord: count * each };
}
