/** The choice of stops as a curve: how many different lengths are cut, and what the plan is worth with so many. */
import type { Plan } from '../../src/plan/plan.ts';
import { printOther } from '../../src/units.ts';
import { figure, many, type Words, wordsIn } from '../words.ts';

type Choice = NonNullable<Plan['choice']>[number];

const WIDTH = 460;
const HEIGHT = 220;
/** A finger's width in the picture. */
const GRIP = 44;
const EDGE = { left: 84, right: 40, top: 30, bottom: 56 };

/** SVG text; '' where there is nothing to choose from. Each point leads to its line in the table below, which says the same in figures. */
export function drawChoice(choice: readonly Choice[], words: Words = wordsIn('metric')): string {
  if (choice.length < 2) return '';
  const sorted = [...choice].sort((p, q) => p.stops - q.stops);
  const worths = sorted.map(({ value }) => value);
  const [low, high] = [Math.min(...worths), Math.max(...worths)];
  const [few, most] = [sorted[0]?.stops ?? 0, sorted.at(-1)?.stops ?? 1];
  const x = (stops: number): number =>
    round(EDGE.left + ((stops - few) / Math.max(1, most - few)) * (WIDTH - EDGE.left - EDGE.right));
  const y = (value: number): number =>
    round(HEIGHT - EDGE.bottom - ((value - low) / Math.max(1e-9, high - low)) * (HEIGHT - EDGE.top - EDGE.bottom));
  const told = (worth: number): string =>
    words.units === 'metric' ? `${figure(worth)} kg` : printOther(Math.round(worth), 'kg');
  const floor = HEIGHT - EDGE.bottom + 14;
  // The whole column over a number leads to its line, as wide as a finger where there is room.
  const grip = Math.min(GRIP, ...sorted.slice(1).map(({ stops }, n) => x(stops) - x(sorted[n]?.stops ?? stops)));
  const points = sorted.map(({ stops, value }) => `${x(stops)},${y(value)}`).join(' ');
  const marks = sorted.map(({ stops, value, chosen }) => {
    const label = `${many(stops, 'stop')}, worth ${words.kilograms(value)}${chosen ? ', this plan' : ''}`;
    const shape = chosen
      ? `<rect class="point chosen" x="${x(stops) - 8}" y="${y(value) - 8}" width="16" height="16"/>`
      : `<circle class="point" cx="${x(stops)}" cy="${y(value)}" r="7"/>`;
    return (
      `<a href="#stops-${stops}" aria-label="${label}"><title>${label}</title>` +
      `<rect class="grip" x="${round(x(stops) - grip / 2)}" y="2" width="${round(grip)}" height="${floor + 20}"/>${shape}` +
      `<text x="${x(stops)}" y="${floor + 16}" text-anchor="middle">${stops}</text></a>`
    );
  });
  return (
    `<svg class="curve" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="group" aria-label="What the plan is worth, by its number of stops">` +
    `<line class="axis" x1="${EDGE.left - 14}" y1="${floor}" x2="${WIDTH - EDGE.right + 14}" y2="${floor}"/>` +
    `<text x="${WIDTH - EDGE.right}" y="${HEIGHT - 8}" text-anchor="end">stops</text>` +
    `<text x="${EDGE.left - 20}" y="${y(high) + 5}" text-anchor="end">${told(high)}</text>` +
    `<text x="${EDGE.left - 20}" y="${y(low) + 5}" text-anchor="end">${told(low)}</text>` +
    `<polyline class="way" points="${points}"/>${marks.join('')}</svg>`
  );
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
