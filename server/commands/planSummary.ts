/** A plan told in words on the terminal: what went where, what was cut and what is left, what binds, and the cautions. */

import { effectOf } from '../../src/balance/float.ts';
import { marginsOf } from '../../src/balance/limits.ts';
import { missLines } from '../../src/balance/miss.ts';
import { weightsAboard } from '../../src/balance/moments.ts';
import { sentenceOf } from '../../src/balance/telling.ts';
import { unplacedLines } from '../../src/balance/unplaced.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { pileMass } from '../../src/job/lot.ts';
import { sectionName } from '../../src/job/section.ts';
import { cutAgain, tellCutAgain } from '../../src/plan/cutAgain.ts';
import type { Nothing } from '../../src/plan/nothing.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { bundleMassOf } from '../../src/plan/totals.ts';
import { fixed, type Units } from '../../src/units.ts';
import { cautionsTogether } from '../cautionsTogether.ts';
import { tellIn } from '../otherUnits.ts';

const APPROVAL =
  'This is arithmetic, not approval: stability, structure and lifting are for licensed or competent people, her rules and local law to decide.';

/** Lines of text for `plan`, without colour, each at most about 110 characters where the names allow it. */
export function planLines(job: Job, plan: Plan, units: Units = 'metric'): string[] {
  const tell = (line: string): string => tellIn(units, line);
  return [
    plan.job,
    tell(headLine(job, plan)),
    '',
    ...voidLines(job, plan, tell),
    '',
    ...[...steelLines(job, plan), ...valueLines(plan), ...afloatLines(job, plan), ...choiceLines(plan)].map(tell),
    ...listed('What binds:', (plan.binds ?? []).map(tell)),
    ...listed(
      'What one more would be worth:',
      (plan.oneMore ?? []).map((more) => tell(more.text)),
    ),
    ...listed(
      'Cautions:',
      cautionsTogether(plan.cautions).map((caution) => `${tell(caution.text)} [${caution.code}, ${caution.about}]`),
    ),
    '',
    APPROVAL,
  ];
}

/** Lines for a job in which no bundle can be placed: which void, why, what to change. */
export function nothingLines(job: Job, reasons: Nothing[]): string[] {
  return [
    `${job.name}: no bundle can be placed, so nothing is written.`,
    ...reasons.map(({ void: name, why, remedy }) =>
      `  ${name ? `${name}: ` : ''}${why.replace(/\.$/, '')}. ${remedy}`.trimEnd(),
    ),
  ];
}

function headLine(job: Job, plan: Plan): string {
  const filled = plan.voids.filter((place) => place.bundles > 0).length;
  const { totals } = plan;
  const ballast =
    job.aims.ballast === undefined
      ? ''
      : `; of the ${job.aims.ballast} kg aimed at the bundles with their bands are ${kg(bundleMassOf(plan))}`;
  return `${kg(totals.placedMass)} of steel placed, in ${count(totals.bundles, 'bundle')} in ${filled} of ${count(plan.voids.length, 'void')}${ballast}.`;
}

function voidLines(job: Job, plan: Plan, tell: (line: string) => string): string[] {
  const places = new Map(job.voids.map((place) => [place.void, place]));
  const rows = plan.voids.map((placed) => {
    const place = places.get(placed.void);
    return [
      placed.void,
      place?.name ?? '',
      tell(kg(placed.mass)),
      tell(capText(place)),
      placed.bundles ? `${Math.round(100 * placed.fill)} %` : '',
      tell(contents(plan.bundles.filter((bundle) => bundle.void === placed.void))),
    ];
  });
  return table(['void', 'name', 'with bands', 'aim', 'full', 'bundles'], rows, [2, 4]);
}

function capText(place: Void | undefined): string {
  const target = place?.target === undefined ? '' : `${place.target} kg`;
  const most = place?.most === undefined ? '' : `${target && ', '}at most ${place.most} kg`;
  return target + most;
}

/** `6 of round 25, 470 mm; 4 of flat 50 × 20, 612 mm`, or a word for an empty void. */
function contents(bundles: PlanBundle[]): string {
  if (bundles.length === 0) return 'stays empty';
  const kinds = new Map<string, number>();
  for (const bundle of bundles) {
    const kind = `${sectionName(bundle.section)}, ${bundle.length} mm`;
    kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  }
  return [...kinds].map(([kind, some]) => `${some} of ${kind}`).join('; ');
}

function steelLines(job: Job, plan: Plan): string[] {
  const { totals } = plan;
  const kept = plan.bars.flatMap((bar) => bar.remainders.filter((remainder) => remainder.fate === 'keep')).length;
  const untouched = Math.max(0, pileMass(job) - totals.stockMass);
  const share =
    totals.stockMass > 0 ? ` (${((100 * totals.scrapMass) / totals.stockMass).toFixed(1)} % of what is cut up)` : '';
  const minutes = Math.round(totals.minutes);
  const again = cutAgain(job, plan);
  return [
    `Steel:  ${kg(totals.stockMass)} in ${count(totals.bars, 'bar')} cut up; ${kg(untouched)} of the pile is not touched.`,
    `        ${kg(totals.keptMass)} kept in ${count(kept, 'remainder')}, ${kg(totals.scrapMass)} scrap${share}, ${kg(totals.kerfMass)} to the saw, ${kg(totals.squaringMass + totals.spoiledMass)} squared off or spoiled.`,
    ...(again ? [`        ${tellCutAgain(again)}`] : []),
    `Work:   ${count(totals.stops, 'stop')}, ${count(totals.cuts, 'cut')}, ${count(totals.pieces, 'piece')}: about ${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} min.`,
  ];
}

function valueLines(plan: Plan): string[] {
  const { value, valueAtMost, gap } = plan.bound;
  const bound =
    valueAtMost === null || gap === null
      ? 'no bound was worked out.'
      : `no plan of this job is worth more than ${kg(valueAtMost)} (gap ${(100 * gap).toFixed(2)} %).`;
  return [`Value:  ${kg(value)} (steel by rank, less half the scrap, less labour); ${bound}`];
}

/** What it does to the vessel, and the limits that would be passed; nothing where the job has no vessel. */
function afloatLines(job: Job, plan: Plan): string[] {
  if (!job.vessel) return [];
  const effect = effectOf(job.vessel, weightsAboard(job, plan));
  const passed = marginsOf(job.vessel, effect).margins.filter((margin) => !margin.holds);
  const lines = [...unplacedLines(job, plan), ...missLines(job, plan), ...passed.map((margin) => margin.text)];
  return [`Afloat: ${sentenceOf(effect)}`, ...lines.map((line) => `        ${line}`)];
}

function choiceLines(plan: Plan): string[] {
  const rows = (plan.choice ?? []).map(
    (choice) =>
      `${count(choice.stops, 'stop')}: ${kg(choice.placedMass)} of steel placed, ${kg(choice.scrapMass)} scrap, value ${kg(choice.value)}${choice.chosen ? '  <- this plan' : ''}`,
  );
  return listed(
    'The choice of stops (--stops N takes another; made for fewer, a plan is often worth more than told here):',
    rows,
  );
}

function listed(title: string, lines: string[]): string[] {
  return lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  - ${line}`)];
}

/** Columns padded to their widest cell; those of `right` are set to the right. */
function table(head: string[], rows: string[][], right: number[]): string[] {
  const widths = head.map((title, n) => Math.max(...[head, ...rows].map((row) => [...(row[n] ?? title)].length)));
  return [head, ...rows].map((row) =>
    row
      .map((cell, n) => {
        const space = ' '.repeat(Math.max(0, (widths[n] ?? 0) - [...cell].length));
        return right.includes(n) ? space + cell : cell + space;
      })
      .join('  ')
      .trimEnd(),
  );
}

function kg(mass: number): string {
  return `${fixed(mass, 1)} kg`;
}

function count(n: number, word: string): string {
  return `${n} ${word}${n === 1 ? '' : 's'}`;
}
