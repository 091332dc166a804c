/** What can not be true of a lot of the pile. */
import type { Fault } from '../fault.ts';
import type { Lot, Saw } from './job.ts';
import { massPerMetre, outerSize, type Section, sectionName } from './section.ts';
import { wrongUnit } from './wrongUnit.ts';

/** A shorter "bar" than this was written in metres, mm. */
export const SHORTEST_BAR = 20;
/** A weighed mass per metre further than this factor from the computed one is a slip, not rust. */
const FAR = 3;

/** Every contradiction in one lot; `path` is its place in the file, `saw` undefined where it could not be read. */
export function lotFaults(lot: Lot, path: string, saw: Saw | undefined, density: number): Fault[] {
  return [
    ...lengthFaults(lot, path),
    ...sectionFaults(lot.section, `${path}.section`),
    ...massFaults(lot, path, density),
    ...endFaults(lot, path, saw),
    ...spoiledFaults(lot, path),
  ];
}

function statedLengths(lot: Lot): { length: number; path: string }[] {
  if (lot.lengths) return lot.lengths.map((length, i) => ({ length, path: `lengths[${i}]` }));
  return lot.length === undefined ? [] : [{ length: lot.length, path: 'length' }];
}

function lengthFaults(lot: Lot, path: string): Fault[] {
  const faults: Fault[] = [];
  if (lot.length === undefined && lot.lengths === undefined) {
    const message = 'The lot says nothing of how long its bars are.';
    const remedy = 'Add “length” for bars all alike, or “lengths” with each bar as measured, in mm.';
    faults.push({ path: `${path}.length`, code: 'missing-field', message, remedy });
  }
  if (lot.length !== undefined && lot.lengths !== undefined) {
    const message = 'The lot has both “length” and “lengths”.';
    const remedy = 'Keep “length” with “count” for bars all alike, or “lengths” with each bar as measured.';
    faults.push({ path: `${path}.lengths`, code: 'contradiction', message, remedy });
  }
  if (lot.lengths !== undefined && lot.count !== undefined && lot.count !== lot.lengths.length) {
    const message = `“count” is ${lot.count}, and “lengths” holds ${lot.lengths.length} bars.`;
    faults.push({
      path: `${path}.count`,
      code: 'contradiction',
      message,
      remedy: 'Take “count” out, or mend the list.',
    });
  }
  for (const bar of statedLengths(lot)) {
    if (bar.length >= SHORTEST_BAR) continue;
    const message = `A bar ${bar.length} mm long is no bar.`;
    faults.push(wrongUnit(`${path}.${bar.path}`, message, bar.length, 1000, 'mm'));
  }
  return faults;
}

function sectionFaults(section: Section, path: string): Fault[] {
  const faults: Fault[] = [];
  for (const [key, value] of Object.entries(section)) {
    const least = key === 'wall' || key === 'thickness' ? 0.1 : 1;
    if (typeof value !== 'number' || value >= least) continue;
    faults.push(wrongUnit(`${path}.${key}`, `“${key}” is ${value} mm.`, value, 1000, 'mm'));
  }
  if (faults.length > 0) return faults;
  if (section.shape === 'tube' && 2 * section.wall >= section.diameter)
    faults.push(thick(`${path}.wall`, 'wall', section.wall, `a tube of ${section.diameter} mm`, 'round'));
  if (section.shape === 'box' && 2 * section.wall >= Math.min(section.width, section.height))
    faults.push(
      thick(`${path}.wall`, 'wall', section.wall, `a box of ${section.width} × ${section.height} mm`, 'flat'),
    );
  if (section.shape === 'angle' && section.thickness >= Math.min(section.leg, section.otherLeg ?? section.leg)) {
    const legs = `an angle of ${section.leg} × ${section.otherLeg ?? section.leg} mm`;
    faults.push(thick(`${path}.thickness`, 'thickness', section.thickness, legs, 'flat'));
  }
  return faults;
}

function thick(path: string, what: string, value: number, of: string, solid: string): Fault {
  const message = `A ${what} of ${value} mm leaves nothing hollow in ${of}.`;
  const remedy = `Measure the ${what} again, or state a solid bar as “${solid}”.`;
  return { path, code: 'contradiction', message, remedy };
}

function massFaults(lot: Lot, path: string, density: number): Fault[] {
  const { section, massPerMetre: weighed } = lot;
  const at = `${path}.massPerMetre`;
  if (section.shape === 'other' && weighed === undefined) {
    const message = 'The mass of a section of shape “other” can not be computed.';
    const remedy = 'Weigh one bar and write its kg divided by its length in m.';
    return [{ path: at, code: 'missing-field', message, remedy }];
  }
  if (weighed === undefined) return [];
  const { across, up } = outerSize(section);
  const computed = massPerMetre(section, density) ?? across * up * density * 1e-6;
  const heavy = weighed > FAR * computed;
  if (!heavy && (section.shape === 'other' || weighed * FAR >= computed)) return [];
  const message = `${weighed} kg/m can not be a ${sectionName(section)} bar: solid steel would be about ${computed.toFixed(2)} kg/m.`;
  const remedy = 'Write the kg of one bar divided by its length in m, and check the section.';
  return [{ path: at, code: 'wrong-unit', message, remedy }];
}

function endFaults(lot: Lot, path: string, saw: Saw | undefined): Fault[] {
  const squaring = lot.squaring ?? saw?.squaring ?? 0;
  const longest = Math.max(0, ...statedLengths(lot).map((bar) => bar.length));
  if (longest === 0 || 2 * squaring < longest) return [];
  const message = `Squaring takes ${squaring} mm off each end, and the longest bar has ${longest} mm.`;
  const remedy = 'Write what is cut off one end to true it, in mm.';
  return [
    { path: lot.squaring === undefined ? 'saw.squaring' : `${path}.squaring`, code: 'contradiction', message, remedy },
  ];
}

function spoiledFaults(lot: Lot, path: string): Fault[] {
  const shortest = Math.min(...statedLengths(lot).map((bar) => bar.length));
  return lot.spoiled.flatMap(({ from, to }, i): Fault[] => {
    const at = `${path}.spoiled[${i}]`;
    if (from >= to) {
      const message = `The spoiled span runs from ${from} to ${to} mm.`;
      return [{ path: `${at}.to`, code: 'contradiction', message, remedy: '“to” must be greater than “from”.' }];
    }
    if (to <= shortest) return [];
    const message = `The spoiled span ends at ${to} mm, and the shortest bar of the lot at ${shortest} mm.`;
    const remedy = 'Measure from the end of the bar, in mm; bars spoiled in other places are a lot of their own.';
    return [{ path: `${at}.to`, code: 'contradiction', message, remedy }];
  });
}
