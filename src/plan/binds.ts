/** What keeps the value of a plan from being greater, in words: from the plan itself, and from the prices of the master. */
import type { Job } from '../job/job.ts';
import { barLengths } from '../job/lot.ts';
import type { Plan } from './plan.ts';
import type { Prices } from './prices.ts';
import type { Problem, Space } from './problem.ts';
import { bundleMassOf } from './totals.ts';

/** A price under this many kilograms is not worth a sentence. */
const LEAST = 0.05;

/** Passed by more than this share is told with by how much. */
const PASSED = 0.01;
const PASSED_WORDS = 'passed by less than a bundle';

/** What is fitted in a void and takes room there, as a sentence; none where nothing is. */
function fittedIn({ void: name, drain, dunnage, keepOut, opening, bearers }: Job['voids'][number]): string[] {
  const fitted = [
    ...(drain && drain.height > dunnage
      ? [
          `the channel for water, ${drain.height} mm high over dunnage of ${dunnage} mm: dunnage as high would free the whole floor, and take that height`,
        ]
      : []),
    ...(keepOut.length > 0 ? ['what bundles stay off'] : []),
    ...(opening ? ['the opening that they have to pass'] : []),
    ...(bearers ? ['the bearers that they have to rest on'] : []),
  ];
  return fitted.length > 0 ? [`In ${name} these may take room, too: ${fitted.join('; ')}.`] : [];
}

/** What stands before and after the names of the voids whose room binds. */
const ROOM = ['Room binds in ', ': more height, width or length would take more steel.'] as const;

/** True where the plan says that room binds in the void. The plan file tells it in a sentence alone, made and read here. */
export function lacksRoom({ binds = [] }: Pick<Plan, 'binds'>, name: string): boolean {
  return binds.some((sentence) => {
    if (!sentence.startsWith(ROOM[0]) || !sentence.endsWith(ROOM[1])) return false;
    return `, ${sentence.slice(ROOM[0].length, -ROOM[1].length)}, `.includes(`, ${name}, `);
  });
}

/** Sentences, the most pressing first: caps reached, voids that are full, lots that run out, the lift limit where it is small. */
export function bindsOf(problem: Problem, plan: Plan, prices: Prices | null): string[] {
  const { job } = problem;
  const sentences: string[] = [];
  const total = bundleMassOf(plan);
  const { ballast } = job.aims;
  if (ballast !== undefined && total >= ballast)
    sentences.push(
      `The ballast asked for, ${ballast} kg, is reached: the bundles with their bands weigh ${total} kg${isPassed(total, ballast) ? `, ${PASSED_WORDS}` : ''}.`,
    );
  const capped = new Set<string>();
  for (const { stated, limit } of problem.spaces) {
    const mass = plan.voids.find((filled) => filled.void === stated.void)?.mass ?? 0;
    const name = stated.void;
    if (stated.target !== undefined && mass >= stated.target)
      sentences.push(
        isPassed(mass, stated.target)
          ? `${name} has its target: ${mass} kg of ${stated.target} kg wanted, ${PASSED_WORDS}.`
          : `${name} has its target of ${stated.target} kg.`,
      );
    else if (stated.most !== undefined && mass > 0 && stated.most - mass < limit)
      sentences.push(`${name} may carry no more than ${stated.most} kg.`);
    else continue;
    capped.add(name);
  }
  const gone = usedUp(job, plan);
  if (prices && gone.length < job.pile.length) {
    const rooms = problem.spaces
      .filter((space) => !hasRoom(space, plan))
      .map(({ stated, index }) => ({ name: stated.void, stated, worth: prices.groups[index] ?? 0 }))
      .filter(({ name, stated, worth }) => worth > LEAST && stated.most !== 0 && !capped.has(name))
      .sort((p, q) => q.worth - p.worth);
    if (rooms.length > 0) sentences.push(`${ROOM[0]}${rooms.map(({ name }) => name).join(', ')}${ROOM[1]}`);
    sentences.push(...rooms.flatMap(({ stated }) => fittedIn(stated)));
  }
  return [...sentences, ...usedUpWords(job, gone)];
}

function isPassed(mass: number, wanted: number): boolean {
  return mass > (1 + PASSED) * wanted;
}

/** True where another run as long as one that the void has would find room in one stretch along, or the void is empty. */
function hasRoom({ stated, laid }: Space, plan: Plan): boolean {
  const axis = plan.voids.find((told) => told.void === stated.void)?.axis;
  const { length, clear, gap } = laid.find((way) => way.axis === axis) ?? laid[0]!;
  const runs = plan.runs.filter((run) => run.void === stated.void).sort((p, q) => p.from - q.from);
  const begins = [...runs.map(({ from }) => from), length - clear.ends + gap.runs];
  const ends = [clear.ends - gap.runs, ...runs.map(({ to }) => to)];
  const widest = Math.max(...begins.map((begin, i) => begin - ends[i]! - 2 * gap.runs));
  return runs.length === 0 || widest >= Math.min(...runs.map(({ from, to }) => to - from));
}

/** True where no bar is left of the pile. */
export function isUsedUp(job: Job, plan: Plan): boolean {
  return usedUp(job, plan).length === job.pile.length;
}

/** The lots of which no bar is left. */
function usedUp(job: Job, plan: Plan): string[] {
  const used = new Map<string, number>();
  for (const { lot } of plan.bars) used.set(lot, (used.get(lot) ?? 0) + 1);
  return job.pile.filter((lot) => (used.get(lot.lot) ?? 0) === barLengths(lot).length).map(({ lot }) => lot);
}

/** One sentence of the lots that are used up; none where bars are left of each. */
function usedUpWords(job: Job, gone: string[]): string[] {
  if (gone.length === 0) return [];
  if (gone.length === job.pile.length)
    return ['No bar is left of the pile: without more steel, more room could take only what is scrap or kept now.'];
  return [`No bar is left of ${gone.length === 1 ? 'lot' : 'lots'} ${gone.join(', ')}.`];
}
