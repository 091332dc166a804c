/** What the job page asks once a job: steel, saw, bundles, vessel and aims. */
import type { Field, RowList } from './field.ts';

export const SAW_FIELDS: readonly Field[] = [
  {
    path: 'saw.kerf',
    label: 'Kerf',
    kind: 'mm',
    unit: 'mm',
    usual: '3',
    help: 'What the saw turns to dust at each cut.',
  },
  {
    path: 'saw.squaring',
    label: 'Squaring',
    kind: 'mm',
    unit: 'mm',
    usual: '0',
    help: 'Cut off each end of a bar to true it.',
  },
  {
    path: 'saw.tolerance',
    label: 'Tolerance',
    kind: 'mm',
    unit: 'mm',
    usual: '2',
    help: 'How far a piece may be off its length.',
  },
  {
    path: 'saw.shortestPiece',
    label: 'Shortest piece',
    kind: 'mm',
    unit: 'mm',
    usual: '150',
    help: 'The shortest that the saw can clamp firmly.',
  },
  {
    path: 'saw.keepFrom',
    label: 'Keep from',
    kind: 'mm',
    unit: 'mm',
    usual: '900',
    help: 'A remainder as long as this is kept, a shorter one is scrap.',
  },
  { path: 'saw.gang', label: 'Bars at once', kind: 'number', usual: '1' },
  { path: 'saw.minutesPerCut', label: 'A cut takes', kind: 'number', unit: 'minutes', usual: '2' },
  {
    path: 'saw.minutesPerStop',
    label: 'Setting a stop takes',
    kind: 'number',
    unit: 'minutes',
    usual: '5',
    help: 'Stop: a saw setting for one length.',
  },
];

export const BUNDLE_FIELDS: readonly Field[] = [
  {
    path: 'bundle.limit',
    label: 'Lift limit',
    kind: 'kg',
    unit: 'kg',
    usual: '8',
    help: 'The most one bundle may weigh. Your own lower figure always wins; a void can have its own.',
  },
  {
    path: 'bundle.wrap',
    label: 'Wrap',
    kind: 'mm',
    unit: 'mm',
    usual: '3',
    help: 'How thick the bands and wrapping are on each side.',
  },
  { path: 'bundle.wrapping', label: 'Wrapping weighs', kind: 'kg', unit: 'kg', usual: '0' },
  { path: 'bundle.endCover', label: 'End cover', kind: 'mm', unit: 'mm', usual: '2' },
  { path: 'bundle.maxBars', label: 'Bars at most', kind: 'number', usual: '30' },
  { path: 'bundle.minutesPerBundle', label: 'Tying one takes', kind: 'number', unit: 'minutes', usual: '6' },
  {
    path: 'bundle.joints.shortest',
    label: 'Butted pieces from',
    kind: 'mm',
    unit: 'mm',
    usual: 'no butted bars',
    help: 'A bar of a bundle may be made of short pieces end to end, each at least this long.',
  },
  {
    path: 'bundle.joints.share',
    label: 'Butted bars, share',
    kind: 'number',
    help: 'At most this share of the bars of a bundle: 0.3 is three in ten.',
  },
  {
    path: 'bundle.becket.cord',
    label: 'Becket cord',
    kind: 'mm',
    unit: 'mm',
    help: 'Becket: the loop of rope a bundle is lifted by.',
  },
  { path: 'bundle.becket.grip', label: 'Becket grip', kind: 'mm', unit: 'mm' },
  {
    path: 'bundle.becket.sleeve',
    label: 'Becket with a sleeve',
    kind: 'choice',
    usual: 'no',
    options: [
      ['', 'as usual'],
      ['true', 'yes'],
      ['false', 'no'],
    ],
  },
];

export const VESSEL_FIELDS: readonly Field[] = [
  { path: 'vessel.displacement', label: 'Displacement now', kind: 'kg', unit: 'kg' },
  {
    path: 'vessel.displacementMost',
    label: 'Displacement at most',
    kind: 'kg',
    unit: 'kg',
    help: 'More ballast than she can carry costs freeboard, drains and sills.',
  },
  { path: 'vessel.freeboard', label: 'Freeboard now', kind: 'metres', unit: 'm' },
  { path: 'vessel.freeboardLeast', label: 'Freeboard at least', kind: 'metres', unit: 'm' },
  {
    path: 'vessel.lcg',
    label: 'Centre of gravity, forward',
    kind: 'metres',
    unit: 'm',
    help: 'From the after end of the waterline.',
  },
  {
    path: 'vessel.vcg',
    label: 'Centre of gravity, up',
    kind: 'metres',
    unit: 'm',
    help: 'From the underside of the keel.',
  },
  {
    path: 'vessel.lcf',
    label: 'Centre of flotation',
    kind: 'metres',
    unit: 'm',
    help: 'The middle of the waterplane: weight here sinks her without trim.',
  },
  { path: 'vessel.waterlineLength', label: 'Waterline length', kind: 'metres', unit: 'm' },
  { path: 'vessel.beam', label: 'Beam', kind: 'metres', unit: 'm' },
  { path: 'vessel.kgPerCm', label: 'To sink her 1 cm', kind: 'kg', unit: 'kg' },
  { path: 'vessel.kgmPerCm', label: 'To trim her 1 cm', kind: 'number', unit: 'kg·m' },
  {
    path: 'vessel.gm',
    label: 'GM',
    kind: 'metres',
    unit: 'm',
    help: 'Her stiffness at small angles. From a licensed source, or from a timed roll.',
  },
  {
    path: 'vessel.rollPeriod',
    label: 'Rolls in',
    kind: 'number',
    unit: 's',
    help: 'Timed, for one whole roll there and back. Time ten and divide.',
  },
  { path: 'vessel.water', label: 'Water', kind: 'number', unit: 'kg/m³', usual: '1025, salt' },
  { path: 'vessel.draughtForward', label: 'Draught forward', kind: 'metres', unit: 'm' },
  { path: 'vessel.draughtAft', label: 'Draught aft', kind: 'metres', unit: 'm' },
  {
    path: 'vessel.hull',
    label: 'Hull',
    kind: 'text',
    help: 'Wood, steel, aluminium, plastic: bare steel is never laid on aluminium.',
  },
];

export const AIM_FIELDS: readonly Field[] = [
  { path: 'aims.ballast', label: 'Ballast wanted', kind: 'kg', unit: 'kg', usual: 'as much as fits' },
  {
    path: 'aims.kgPerHour',
    label: 'An hour is worth',
    kind: 'number',
    unit: 'kg',
    usual: '5',
    help: "An hour's work is only worth doing for this many kilograms more in place.",
  },
  {
    path: 'aims.stopsAtMost',
    label: 'Stops at most',
    kind: 'number',
    usual: 'as many as pay',
    help: 'How many different lengths may be cut.',
  },
  {
    path: 'aims.fixedShare',
    label: 'Fixed share',
    kind: 'number',
    usual: '0.8',
    help: 'This part goes in first; the rest trims her afloat.',
  },
  { path: 'aims.centre.x', label: 'Centre forward', kind: 'metreRange', unit: 'm', help: '4.3 to 4.9' },
  { path: 'aims.centre.y', label: 'Centre to starboard', kind: 'metreRange', unit: 'm', help: '-0.02 to 0.02' },
  { path: 'aims.centre.z', label: 'Centre up', kind: 'metreRange', unit: 'm' },
  {
    path: 'aims.spread',
    label: 'Spread',
    kind: 'metres',
    unit: 'm',
    help: 'How far the weight may lie from the centre of flotation. Weight in the ends makes her pitch.',
  },
  {
    path: 'aims.listMost',
    label: 'List while loading, at most',
    kind: 'number',
    unit: 'degrees',
    usual: 'not said',
    help: 'Bundles go in port and starboard turn about, so that she never lists more than this.',
  },
];

export const STEEL_FIELDS: readonly Field[] = [
  {
    path: 'steel.density',
    label: 'Density',
    kind: 'number',
    unit: 'kg/m³',
    usual: '7850',
    help: 'For lots with no weighed figure.',
  },
];

/** Where water can come in, or must run out. */
export const OPENINGS: RowList = {
  list: 'vessel.openings',
  title: 'Sills, drains and outlets',
  add: 'A sill, drain or outlet',
  remove: 'Take this out',
  fields: [
    { path: 'name', label: 'What', kind: 'text', help: 'Cockpit drain, exhaust outlet, companionway sill.' },
    { path: 'height', label: 'Above the water now', kind: 'metres', unit: 'm' },
    { path: 'x', label: 'Forward of the after end', kind: 'metres', unit: 'm' },
    { path: 'y', label: 'To starboard', kind: 'metres', unit: 'm' },
  ],
};
