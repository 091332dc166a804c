/** What the record says, for the register: what is in and since when, what is out now, and what became of each void. */
import { aboardNow } from '../../src/balance/recorded.ts';
import type { Job } from '../../src/job/job.ts';
import { type Act, dayOf, historyOf } from '../../src/plan/history.ts';
import { massNow, type WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { bundlesIn, type Entry, hangingOf, isAway, type Recorded, recordIn, recordOf } from '../../src/plan/record.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { figureTold, massTold, tell } from './feet.ts';
import { plain } from './figures.ts';
import { type Paper, type PaperOptions, writeParagraph } from './page.ts';
import { type Column, writeTable } from './table.ts';
import { RECORD_WORDS as W } from './words.ts';

/** Bundles over what is not in that are named; the rest is counted. */
const TOLD = 20;

/** What still goes in by the plans of which this one is a plan of the rest, and where their records are otherwise than it takes them to be. */
export function linesOfBefore({ before = [] }: PaperOptions): string[] {
  return before.flatMap(({ serial, lacking, twice = '', gone = '', moved = '' }) => [
    ...(lacking === '' ? [] : [W.goesFirst(serial, lacking)]),
    ...(twice === '' ? [] : [W.countsTwice(serial, twice)]),
    ...(gone === '' ? [] : [W.isGone(serial, gone)]),
    ...(moved === '' ? [] : [W.wasMoved(serial, moved)]),
  ]);
}

/** On papers that tell of the whole plan: what the record has out of her, or left ashore; none where all else is as planned. */
export function linesOfAway(paper: Paper, { bundles }: Plan): string[] {
  const { record: entries = [], weighed } = paper.options;
  const record = recordOf(entries);
  const away = bundles.filter(({ bundle }) => isAway(recordIn(record, bundle)));
  const mass = away.reduce((sum, own) => sum + massNow(own, weighed), 0);
  return away.length === 0 ? [] : [W.away(rangesOf(away), massTold(paper, mass))];
}

/** Nothing where there is no record: the register then leaves it to the pencil. */
export async function writeRecord(
  paper: Paper,
  job: Job,
  plan: Plan,
  entries: readonly Entry[],
  masses: WeighedMasses,
): Promise<void> {
  const day = entries
    .map(({ at }) => dayOf(at))
    .sort()
    .at(-1);
  if (day === undefined) return;
  const record = recordOf(entries);
  const { others } = paper.options;
  const { all, centre, effect, ...now } = aboardNow(job, plan, record, masses, others?.weights);
  const after = others?.after ?? [];
  writeParagraph(paper, W.head(day), { size: 11, weight: 'bold' }, { above: 9, below: 2, keep: 60 });
  const at = (metres: number) => figureTold(paper, metres, 'm', `${plain(metres, 3)}${paper.options.feet ? ' m' : ''}`);
  const place = centre && W.centre(at(centre.x), at(centre.y), at(centre.z));
  writeParagraph(
    paper,
    W.sum(
      now.in.bundles,
      all.bundles,
      massTold(paper, now.in.mass),
      place,
      now.in.bundles + after.length > 0 && effect !== null ? tell(paper, effect) : null,
      now.lying.length + after.length > 0,
    ),
    { size: 9 },
  );
  for (const { serial, mass, voids } of after)
    writeParagraph(paper, W.after(serial, massTold(paper, mass), voids.join(', ')), { size: 9 }, { above: 3 });
  const out = plan.bundles.filter(({ bundle }) => recordIn(record, bundle).state === 'out');
  if (out.length > 0)
    writeParagraph(
      paper,
      W.out(rangesOf(out), massTold(paper, now.out.mass)),
      { size: 9, weight: 'bold' },
      { above: 3 },
    );
  const ashore = plan.bundles.filter(({ bundle }) => recordIn(record, bundle).ashore);
  const massAshore = ashore.reduce((sum, one) => sum + massNow(one, masses), 0);
  if (ashore.length > 0)
    writeParagraph(paper, W.ashore(rangesOf(ashore), massTold(paper, massAshore)), { size: 9 }, { above: 3 });
  const hanging = hangingOf(plan, bundlesIn(record)).map(({ bundle, on }) => W.rests(bundle.bundle, rangesOf(on)));
  if (hanging.length > 0)
    writeParagraph(
      paper,
      W.hanging(hanging.slice(0, TOLD).join('; '), Math.max(0, hanging.length - TOLD)),
      { size: 9, weight: 'bold' },
      { above: 3 },
    );
  await writeStates(paper, job, plan, record);
  writeParagraph(paper, W.historyHead, { size: 9, weight: 'bold' }, { above: 6, keep: 24 });
  for (const space of job.voids) {
    const acts = historyOf(ofVoid(plan, space.void).map(({ bundle }) => recordIn(record, bundle)));
    if (acts.length === 0) continue;
    const told = acts.map((act) => W.act(act.day, act.bundles, doneIn(act))).join(' ');
    writeParagraph(paper, W.history(space.void, told), { size: 9 }, { above: 3 });
  }
}

/** Of voids from which something was lifted out since they were held down. */
export function writeLoosened(paper: Paper, plan: Plan, entries: readonly Entry[]): void {
  const record = recordOf(entries);
  const isLoosened = ({ bundle }: PlanBundle) => recordIn(record, bundle).moves.some(({ did }) => did === 'lifted out');
  const voids = [...new Set(plan.bundles.filter(isLoosened).map((bundle) => bundle.void))];
  if (voids.length > 0) writeParagraph(paper, W.loosened(voids.join(', ')), { size: 9, weight: 'bold' }, { above: 3 });
}

async function writeStates(paper: Paper, job: Job, plan: Plan, record: Recorded): Promise<void> {
  const columns: Column[] = [
    { head: W.heads.void, share: 1 },
    { head: W.heads.in, width: 62, bold: true },
    { head: W.heads.stowed, width: 130 },
    { head: W.heads.out, share: 3 },
  ];
  const rows = job.voids.flatMap((space) => {
    const own = ofVoid(plan, space.void);
    if (own.length === 0) return [];
    const records = own.map(({ bundle }) => recordIn(record, bundle));
    const days = records.flatMap(({ stowed }) => (stowed === null ? [] : [dayOf(stowed)])).sort();
    const [first, last] = [days[0], days.at(-1)];
    const count = records.filter(({ state }) => state === 'in').length;
    const out = own.filter((_, i) => records[i]?.state === 'out');
    return [
      [
        space.void,
        W.of(count, own.length),
        first === undefined || last === undefined ? '' : first === last ? first : W.days(first, last),
        rangesOf(out),
      ],
    ];
  });
  paper.y += 3;
  await writeTable(paper, columns, rows, { size: 9, rowHeight: 15 });
}

function ofVoid(plan: Plan, name: string): PlanBundle[] {
  return plan.bundles.filter((bundle) => bundle.void === name).sort((p, q) => p.order - q.order);
}

function rangesOf(bundles: readonly PlanBundle[]): string {
  return markRanges(bundles.map(({ bundle }) => bundle)).join(', ');
}

function doneIn({ did, note }: Act): string {
  if (did === 'lies') return note === '' ? W.liesAsPlanned : W.lies(note);
  if (did === 'seen') return W.seen(note);
  if (did === 'moved') return W.moved(note);
  return note === '' ? W.did[did] : W.noted(W.did[did], note);
}
