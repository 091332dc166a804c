/** What a plan can be faulted with: a closed list, each rule of the format page once. */

/** By code: the rule that is broken. DEVELOPERS.md lists the same codes; a test keeps the two alike. */
export const PLAN_FAULTS = {
  'other-job': 'The plan was made for another job, or for another state of this one.',
  'bar-twice': 'Two bars carry one mark.',
  'bar-not-in-pile': 'A bar is used that the pile does not have, or more of them than it has.',
  'bar-uncut': 'A bar is listed, and no piece is cut from it.',
  'piece-twice': 'Two pieces carry one mark.',
  'piece-length': 'A piece is not a whole number of millimetres long, or shorter than the shortest piece.',
  'piece-outside': 'A piece lies in no usable span of its bar.',
  'kerf-missing': 'Two pieces overlap or leave less than a kerf between them.',
  'steel-unaccounted':
    'Steel beside a piece is neither kerf nor remainder: pieces stand from the start of a span, one kerf apart.',
  remainder: 'The remainders listed are not what is left of the bar.',
  'remainder-fate': 'A remainder is kept or scrapped against keepFrom.',
  'piece-untied': 'A piece is cut and tied in no bundle.',
  'piece-tied-twice': 'A piece is tied more than once.',
  'piece-unknown': 'A bundle holds a piece that no bar yields.',
  'piece-bundle': 'A piece says it is for one bundle and is tied in another.',
  'piece-section': 'A piece of another section is tied in a bundle.',
  'bundle-twice': 'Two bundles carry one mark.',
  'bundle-void': 'A bundle lies in a void that the job does not have.',
  'bundle-section': 'A bundle has a section that no lot has.',
  'bundle-rows': 'Rows, columns and slots of a bundle do not agree.',
  'bundle-arrangement': 'A bundle is arranged as its section does not allow.',
  'bundle-lie': 'A bundle lies on edge, and its section is as wide as it is high.',
  'bundle-bars': 'A bundle has more bars than maxBars.',
  'bundle-length': 'A bar of a bundle is not as long as the bundle, or its length is not whole.',
  'joint-not-allowed': 'Bars are jointed, and the job does not allow it.',
  'joint-short': 'A jointed piece is shorter than joints.shortest.',
  'joint-share': 'More bars of a bundle are jointed than joints.share.',
  'joint-outer': 'A bar at the outer end of a row is jointed.',
  'joint-beside-joint': 'Two touching bars are jointed within 50 mm of each other.',
  'bundle-mass': 'The mass told of a bundle is not the mass of its pieces and wrapping.',
  'bundle-limit': 'The limit told of a bundle is not that of its void.',
  'over-limit': 'A bundle is heavier than the lift limit of its void.',
  'bundle-size': 'The size told of a bundle is not the size that its bars give.',
  'bundle-place': 'A bundle does not lie on a half millimetre.',
  becket: 'A becket has no length.',
  'void-axis': 'The axis told of a void is not one that the job allows.',
  'outside-ends': 'A bundle runs out of its void at an end.',
  'outside-sides': 'A bundle runs out of its void at a side.',
  'outside-top': 'A bundle stands over the top of its void.',
  'below-bottom': 'A bundle lies under the raised bottom of its run.',
  'keep-out': 'A bundle meets or buries a keep-out.',
  drain: 'A bundle stands in the channel kept free for water.',
  opening: 'A bundle passes no opening of its void.',
  overlap: 'Two bundles overlap.',
  'gap-across': 'Two bundles side by side leave less than the finger room.',
  'gap-runs': 'Two runs leave less than the gap between them.',
  'run-start': 'Bundles of one run do not start together.',
  'run-length': 'Bundles of one run are not of one length class.',
  'run-number': 'Runs are not numbered from along 0, or not without a hole.',
  'run-told': 'A run is told wrong, twice or not at all.',
  packing: 'The packing heights told of a run are not those under it.',
  'tier-mixed': 'A tier holds bundles of different sections, row counts, lies or heights.',
  'tier-number': 'A tier has the wrong number for what it rests on.',
  'not-carried': 'A bundle is carried under less than 60 % of its plan area.',
  overhang: 'The middle of a bundle is not between the edges that carry it.',
  'not-on-bearers':
    'A bundle of the ground tier rests on fewer than two bearers, or too far past the outer one, or its middle is not between them.',
  'over-bearer': 'A bearer carries more than its most.',
  'over-metre': 'A run weighs more for its length than mostPerMetre.',
  order: 'The order in a void is not 1 to n, or a bundle comes before one it rests on.',
  share: 'The trim part of a void goes in before a bundle of its fixed part, or the fixed part is over fixedShare.',
  'void-told': 'A void is told of twice, not at all, or is not in the job.',
  'void-mass': 'The mass or the number of bundles told of a void is wrong.',
  'void-fill': 'The fill told of a void is not between 0 and 1.',
  'void-centre': 'The centre told of a void is wrong.',
  'over-most': 'A void holds more than its most.',
  'over-target': 'A void passes its target by a whole bundle or more.',
  'over-ballast': 'The plan passes the ballast asked for by a whole bundle or more.',
  'over-stops': 'More different lengths are cut than stopsAtMost.',
  totals: 'A total is told wrong.',
  'mass-lost': 'The masses of the totals do not add up to the stock cut up.',
  centre: 'The centre told of the plan is wrong.',
  'centre-untold': 'The centre is outside the range asked for, and no caution says so.',
  'spread-untold': 'The spread is over the one asked for, and no caution says so.',
  value: 'The value told of the plan is wrong.',
  bound: 'Value, bound and gap do not agree.',
} as const;

export type PlanFaultCode = keyof typeof PLAN_FAULTS;

/**
 * One rule broken. `about` names the thing (`bundle V1-03`), and so does `text`, since it may be all that is shown; `by`
 * says by how much, mm or kg as the text says, null where no amount fits.
 */
export interface PlanFault {
  code: PlanFaultCode;
  about: string;
  text: string;
  by: number | null;
}

/** Notes one fault down. */
export type Tell = (code: PlanFaultCode, about: string, text: string, by?: number) => void;

/** A length or mass as it is told in a fault: at most two decimals, and more only to tell it from what it is held `against`. */
export function figure(value: number, against?: number): string {
  let decimals = 2;
  while (decimals < 9 && against?.toFixed(decimals) === value.toFixed(decimals)) decimals++;
  return String(Number(value.toFixed(decimals)));
}

/** Positions in voids are multiples of half a millimetre; this much is the dust of floating point, mm. */
export const DUST = 0.01;

/** Masses counted from the pieces are exact: so much over a limit or a most is the dust of adding them up, kg. */
export const DUST_KG = 2e-6;
