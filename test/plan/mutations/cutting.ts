/** Bars, pieces and remainders. */
// biome-ignore-all lint/suspicious/noAssignInExpressions: a table of changes, one expression each
import { barWith, type Mutation } from './mutation.ts';

export const CUTTING: Mutation[] = [
  ['the plan of another job', 'other-job', (plan) => (plan.job += '!')],
  ['the job changed since', 'other-job', (plan) => (plan.jobDigest = `sha256:${'f'.repeat(64)}`)],
  [
    'two bars of one mark',
    'bar-twice',
    (plan) => (plan.bars.length > 1 ? (plan.bars[1]!.bar = plan.bars[0]!.bar) : false),
  ],
  ['a bar of no lot', 'bar-not-in-pile', (plan) => (plan.bars[0]!.lot = 'none')],
  ['a bar longer than any', 'bar-not-in-pile', (plan) => (plan.bars[0]!.length += 1)],
  [
    'one bar more than the lot has',
    'bar-not-in-pile',
    (plan, job) => {
      const lot = job.pile.find((each) => each.lot === plan.bars[0]!.lot)!;
      const used = plan.bars.filter((bar) => bar.lot === lot.lot).length;
      if (lot.lengths) lot.lengths = lot.lengths.slice(0, used - 1);
      else lot.count = used - 1;
    },
  ],
  [
    'a bar with no piece',
    'bar-uncut',
    (plan) => plan.bars.push({ ...plan.bars[0]!, bar: 'Z-99', pieces: [], remainders: [] }),
  ],
  [
    'two pieces of one mark',
    'piece-twice',
    (plan) => {
      const bar = barWith(plan, 2);
      return bar ? (bar.pieces[1]!.piece = bar.pieces[0]!.piece) : false;
    },
  ],
  ['half a millimetre on a piece', 'piece-length', (plan) => (plan.bars[0]!.pieces[0]!.to += 0.5)],
  ['a piece under the shortest', 'piece-length', (plan, job) => (job.saw.shortestPiece = plan.bundles[0]!.length + 1)],
  [
    'a piece in the squared end',
    'piece-outside',
    (plan, job) => {
      const [bar] = plan.bars;
      job.pile.find((lot) => lot.lot === bar!.lot)!.squaring = bar!.pieces[0]!.from + 60;
    },
  ],
  [
    'a piece across a weld',
    'piece-outside',
    (plan, job) => {
      const [piece] = plan.bars[0]!.pieces;
      job.pile.find((lot) => lot.lot === plan.bars[0]!.lot)!.spoiled = [
        { from: piece!.from + 20, to: piece!.from + 30 },
      ];
    },
  ],
  [
    'a kerf forgotten',
    'kerf-missing',
    (plan, job) => {
      const bar = barWith(plan, 2);
      if (!bar || bar.pieces[1]!.from - bar.pieces[0]!.to > job.saw.kerf + 1) return false;
      for (const piece of bar.pieces.slice(1))
        Object.assign(piece, { from: piece.from - job.saw.kerf, to: piece.to - job.saw.kerf });
    },
  ],
  [
    'a thicker saw than was planned with',
    'kerf-missing',
    (plan, job) => (barWith(plan, 2) ? (job.saw.kerf += 0.3) : false),
  ],
  [
    'two pieces on top of each other',
    'kerf-missing',
    (plan) => {
      const bar = barWith(plan, 2);
      return bar ? Object.assign(bar.pieces[1]!, { from: bar.pieces[0]!.from, to: bar.pieces[0]!.to }) : false;
    },
  ],
  [
    'a thinner saw than was planned with',
    'steel-unaccounted',
    (plan, job) => (barWith(plan, 2) ? (job.saw.kerf -= 0.3) : false),
  ],
  [
    'a bar begun 10 mm late',
    'steel-unaccounted',
    (plan) => plan.bars[0]!.pieces.map((piece) => Object.assign(piece, { from: piece.from + 10, to: piece.to + 10 })),
  ],
  [
    'a remainder not told',
    'remainder',
    (plan) => plan.bars.find((bar) => bar.remainders.length > 0)?.remainders.pop() !== undefined,
  ],
  [
    'a remainder told too long',
    'remainder',
    (plan) => {
      const bar = plan.bars.find((each) => each.remainders.length > 0);
      return bar ? (bar.remainders[0]!.from -= 2) : false;
    },
  ],
  [
    'a remainder that is not there',
    'remainder',
    (plan) =>
      plan.bars[0]!.remainders.push({ from: plan.bars[0]!.length - 9, to: plan.bars[0]!.length - 1, fate: 'scrap' }),
  ],
  [
    'scrap told as kept',
    'remainder-fate',
    (plan) => {
      const rest = plan.bars.flatMap((bar) => bar.remainders).find((each) => each.fate === 'scrap');
      return rest ? (rest.fate = 'keep') : false;
    },
  ],
  [
    'a long remainder scrapped',
    'remainder-fate',
    (plan) => {
      const rest = plan.bars.flatMap((bar) => bar.remainders).find((each) => each.fate === 'keep');
      return rest ? (rest.fate = 'scrap') : false;
    },
  ],
  [
    'a greater keepFrom',
    'remainder-fate',
    (plan, job) => {
      const rest = plan.bars.flatMap((bar) => bar.remainders).find((each) => each.fate === 'keep');
      return rest ? (job.saw.keepFrom = rest.to - rest.from + 1) : false;
    },
  ],
];
