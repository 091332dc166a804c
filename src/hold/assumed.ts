/** What the working of a hold-down takes for granted, to be confirmed, in sentences. */
import type { HoldDown } from '../job/holdDown.ts';
import { kN, STEEL_FACTOR } from './carriers.ts';
import { markHold } from './fittings.ts';
import { tensionOf } from './straps.ts';

/** A strap that goes round the bundles and not over their ends lets round bars slide out of it. */
export function slidingAssumed(hold: HoldDown, rolling: boolean, athwartships: boolean): string[] {
  const ends = athwartships ? ['port', 'starboard'] : ['forward', 'aft'];
  const along = hold.straps.some((strap) => strap.kind === 'direct' && ends.includes(strap.against));
  if (!rolling || !along) return [];
  return [
    'A direct strap against sliding lengthwise is taken to bear on a board across the ends of the bars: made fast round the bundles alone it does not keep round bars from sliding out of it.',
  ];
}

/** Which way bolts are pulled, and what else could load them and is not reckoned. */
function boltsAssumed({ bars }: HoldDown): string[] {
  const across = bars.filter(({ bolts }) => bolts.pull === 'across').length;
  return [
    ...(across < bars.length
      ? [
          'Bolts are taken as pulled along their length. Where they stand across the load, as through the side of a frame, enter them as in shear: a bolt carries 0.58 of it then.',
        ]
      : []),
    ...(across > 0
      ? [
          'A bolt in shear is reckoned in one plane through its thread, at 1/√3 of its proof stress, where steel yields in shear. Where it crosses a gap or soft packing it bends as well: that is not reckoned.',
        ]
      : []),
    'Where the end of a bar bears on something beyond its bolts it prises at them: that is not reckoned.',
    'Bars across count against going up alone: what goes sideways is for blocks and straps to carry, and puts no shear on their bolts here.',
  ];
}

/** What straps over the top carry against sliding goes as their tension, and is no more than whoever fits them reaches. */
function tensionAssumed(hold: HoldDown): string[] {
  const over = markHold(hold).straps.flatMap(({ letter, strap }) => (strap.kind === 'over' ? [{ letter, strap }] : []));
  if (over.length === 0) return [];
  const each = over.map(({ letter, strap }) => {
    const taken = strap.tension === undefined ? ', half its lashing capacity, since none is stated' : '';
    return `${letter} ${kN(tensionOf(strap), 'up')}${taken}`;
  });
  return [
    `The tension left in a strap over the top is taken as: ${each.join('; ')}. Whoever fits it has to reach that, by a tensioner that is stated to, and to tighten it again as it settles: with less it carries so much less against sliding.`,
  ];
}

/** Figures that come from memory, or from elsewhere than boats, are told as such wherever they are used. */
export function assumedOf(hold: HoldDown, runs: number): string[] {
  const direct = hold.straps.some((strap) => strap.kind === 'direct');
  const assumed = [
    ...(direct && runs > 1
      ? [
          `A direct strap is taken to hold the whole stow: it has to be made fast so that it holds all ${runs} runs, since it holds none that it does not go round.`,
        ]
      : []),
    'Twice the weight to each side and upwards is the analogue of a published test for boat batteries, and no rule for ballast.',
  ];
  if (hold.straps.length > 0) {
    assumed.push(
      'Straps are reckoned by the form used on roads, with a factor of 1.25 forward and 1.1 otherwise, from memory: to be confirmed.',
    );
  }
  assumed.push(...tensionAssumed(hold));
  if (hold.friction > 0) {
    assumed.push(
      `Friction μ ${hold.friction} is as entered. Dry and swept, published: sawn wood on plywood 0.45, on stainless 0.30; steel on steel rough 0.40, painted 0.30, smooth 0.20; a rubber mat 0.6 from memory. Wet or oily: none.`,
    );
  }
  if (hold.bars.length > 0) {
    assumed.push(
      `Bars and bolts are worked to their yield or proof stress over ${STEEL_FACTOR}: a default to confirm.`,
      ...boltsAssumed(hold),
    );
  }
  if (hold.bars.length > 0) {
    assumed.push(
      runs > 0
        ? 'The middle of a bar’s span is taken to lie over the middle of the void; where the weight under it lies to one side, the bolts of that end have more of it by the lever, and they are the measure.'
        : 'How the stow lies under a bar is not known before it is planned: until then both its ends are taken to have half each. Where the stow lies to one side, the bolts of that end have more.',
    );
  }
  if (hold.bars.some((bar) => bar.load === 'spread')) {
    assumed.push(
      runs > 0
        ? 'A bar pressed on all across the stow is taken as pressed on evenly, over as much of the middle of its span as the uppermost bundles under it reach from side to side.'
        : 'How wide the stow is under a bar pressed on all across it is not known before it is planned: until then the bar is reckoned as pressed on in the middle.',
    );
  }
  if (hold.bars.some((bar) => bar.yield === 235)) {
    assumed.push('A yield strength of 235 MPa is that of S235 steel, from memory: to be confirmed for salvaged bar.');
  }
  return assumed;
}
