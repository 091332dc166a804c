/**
 * The fixed cut list, `kentledge-cutlist/1`: bars in stock and pieces wanted, for who already knows the pieces. What
 * `.describe` says of a field is printed by `kentledge schema cutlist` (`plan/fileSchema.ts`).
 */
import { z } from 'zod';
import type { Fault, Read } from '../fault.ts';
import { formatFault } from './formatFault.ts';
import { spoiledSchema } from './job.ts';
import { readJson } from './jsonText.ts';
import { SHORTEST_BAR } from './lotFaults.ts';
import { readKnown, schemaFaults } from './schemaFaults.ts';
import { ONE_LINE_IN_LIST, unprintedFaults } from './unprinted.ts';
import { wrongUnit } from './wrongUnit.ts';

const CUTLIST_FORMAT = 'kentledge-cutlist/1';

/**
 * Into how many parts of a millimetre a list can be divided: tenths, else parts of which hundredths of a millimetre (16)
 * and 64ths of an inch (635) are whole numbers. The first that goes is taken: fewer parts are reckoned with faster.
 */
const FINENESSES = [10, 1600] as const;
const FINEST = FINENESSES[1];

const mm = z.number().min(0).max(100_000).describe('mm');
const mmAbove0 = z.number().positive().max(100_000).describe('mm');

/** Bars alike. `count` null: no limit. `price`: by default 1 for all, or the length where lengths differ. */
const stockSchema = z.strictObject({
  length: mmAbove0.describe('of each of these bars, mm'),
  count: z.int().min(0).max(100_000).nullable().default(null).describe('bars of this kind; null is no limit'),
  price: z
    .number()
    .min(0)
    .max(1e9)
    .optional()
    .describe(
      'of a bar, in any unit, the same for all stock; where absent 1 for all, or the length where lengths differ',
    ),
  spoiled: z.array(spoiledSchema).max(1000).default([]).describe('the same in every bar of this kind'),
});

const pieceSchema = z.strictObject({
  length: mmAbove0.describe('of each of these pieces, mm'),
  count: z.int().min(0).max(100_000).default(1).describe('pieces wanted'),
  mark: z.string().max(200).optional().describe('stands beside the piece in the answer'),
  weight: z
    .number()
    .min(0)
    .max(1e9)
    .optional()
    .describe('what a piece is worth where not all can be cut; its length where absent. Since 0.1.0'),
});

const cutSawSchema = z
  .strictObject({
    kerf: z.number().min(0).max(100).default(3).describe('steel that one cut takes, mm'),
    squaring: mm.default(0).describe('cut off each end of a bar to true it, mm'),
  })
  .prefault({});

export const cutListSchema = z
  .strictObject({
    format: z.literal(CUTLIST_FORMAT),
    stock: z.array(stockSchema).min(1).max(10_000).describe('bars to cut from'),
    pieces: z.array(pieceSchema).min(1).max(10_000).describe('pieces wanted'),
    saw: cutSawSchema,
  })
  .meta({
    title: 'Cut list of kentledge',
    description:
      'Bars in stock and pieces wanted, for `kentledge cut`. Lengths mm, as whole hundredths or as 64ths of an inch written in full. Beyond what a schema can say, every fault is told by kentledge itself, each with its path.',
  });

/** A cut list with every default filled in. */
export type CutList = z.output<typeof cutListSchema>;

/** Reads the text of a cut list: every fault at once. Never throws for what the text holds. */
export function readCutList(text: string | Uint8Array): Read<CutList> {
  const json = readJson(text);
  if (!json.ok) return json;
  const format = formatFault(json.value, CUTLIST_FORMAT, 'cutlist');
  if (format !== null && format.code !== 'missing-field' && format.code !== 'out-of-range') {
    return { ok: false, faults: [format] };
  }
  const unprinted = unprintedFaults(json.value, ONE_LINE_IN_LIST);
  const parsed = cutListSchema.safeParse(json.value);
  if (!parsed.success) {
    const found = schemaFaults(cutListSchema, json.value, 'cutlist').filter((fault) => fault.path !== 'format');
    const compared = [...cutListFaults(readableParts(json.value)), ...unprinted];
    return { ok: false, faults: [...(format ? [format] : []), ...found, ...compared] };
  }
  const faults = [...cutListFaults(parsed.data), ...unprinted];
  return faults.length > 0 ? { ok: false, faults } : { ok: true, value: parsed.data };
}

/** The parts of a cut list that could be read; undefined stands for one that could not. */
interface StatedList {
  stock: (CutList['stock'][number] | undefined)[];
  pieces: (CutList['pieces'][number] | undefined)[];
  saw?: CutList['saw'] | undefined;
}

/** Of a list as written, the parts that can be read for themselves, so that what they say can be compared all the same. */
function readableParts(raw: unknown): StatedList {
  const { stock, pieces, saw } = raw as { stock?: unknown; pieces?: unknown; saw?: unknown };
  return {
    stock: Array.isArray(stock) ? stock.map((bar) => readKnown(stockSchema, bar)) : [],
    pieces: Array.isArray(pieces) ? pieces.map((piece) => readKnown(pieceSchema, piece)) : [],
    saw: readKnown(cutSawSchema, saw),
  };
}

function cutListFaults({ stock, pieces, saw }: StatedList): Fault[] {
  return [
    ...stock.flatMap((bar, i) => (bar ? barFaults(bar, `stock[${i}]`, saw?.squaring ?? 0) : [])),
    ...pieces.flatMap((piece, i) => (piece ? tooFine(piece.length, `pieces[${i}].length`) : [])),
    ...(saw ? [...tooFine(saw.kerf, 'saw.kerf'), ...tooFine(saw.squaring, 'saw.squaring')] : []),
  ];
}

function barFaults(bar: CutList['stock'][number], path: string, squaring: number): Fault[] {
  const faults = tooFine(bar.length, `${path}.length`);
  if (bar.length < SHORTEST_BAR) {
    const message = `A bar ${bar.length} mm long is no bar.`;
    faults.push(wrongUnit(`${path}.length`, message, bar.length, 1000, 'mm'));
  } else if (2 * squaring >= bar.length) {
    const message = `Squaring takes ${squaring} mm off each end, and the bar has ${bar.length} mm.`;
    const remedy = 'Write what is cut off one end to true it, in mm.';
    faults.push({ path: 'saw.squaring', code: 'contradiction', message, remedy });
  }
  bar.spoiled.forEach(({ from, to }, i) => {
    const at = `${path}.spoiled[${i}]`;
    faults.push(...tooFine(from, `${at}.from`), ...tooFine(to, `${at}.to`));
    if (from >= to) {
      const message = `The spoiled span runs from ${from} to ${to} mm.`;
      faults.push({ path: `${at}.to`, code: 'contradiction', message, remedy: '“to” must be greater than “from”.' });
    } else if (to > bar.length) {
      const message = `The spoiled span ends at ${to} mm, and the bar at ${bar.length} mm.`;
      const remedy = 'Measure from the end of the bar, in mm.';
      faults.push({ path: `${at}.to`, code: 'contradiction', message, remedy });
    }
  });
  return faults;
}

/** Into how many parts a millimetre is to be divided, so that every length of a list that was read is whole. */
export function finenessOf({ stock, pieces, saw }: CutList): number {
  const bars = stock.flatMap((bar) => [bar.length, ...bar.spoiled.flatMap(({ from, to }) => [from, to])]);
  const lengths = [saw.kerf, saw.squaring, ...pieces.map((piece) => piece.length), ...bars];
  return FINENESSES.find((parts) => lengths.every((length) => isWhole(length * parts))) ?? FINEST;
}

/** So near that only the last figures of a number in the machine are between. */
function isWhole(parts: number): boolean {
  return Math.abs(parts - Math.round(parts)) < 1e-6;
}

function tooFine(value: number, path: string): Fault[] {
  if (isWhole(value * FINEST)) return [];
  const message = `${value} mm is finer than a saw cuts.`;
  const remedy = 'Round it to 0.01 mm, or write a 64th of an inch in full: 1/64 in is 0.396875 mm.';
  return [{ path, code: 'out-of-range', message, remedy }];
}
