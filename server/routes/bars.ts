/** A list of bars brought in: one page that shows its columns as matched, its rows as read, and what is wrong with each. */
import { type Response, Router } from 'express';
import type { Fault } from '../../src/fault.ts';
import { JOB_FORMAT, LOTS_AT_MOST } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import type { Context } from '../app.ts';
import type { Draft, Posted } from '../form/apply.ts';
import { appendLots, type BarList, hasLength, lotsOf, readList, rowsOf } from '../form/bars.ts';
import { showField, showSection } from '../form/kinds.ts';
import { COLUMNS, type Column } from '../form/listHeadings.ts';
import { listText } from '../form/listText.ts';
import { isRecord, listAt, parsePath, valueAt } from '../form/path.ts';
import { LOT_FIELDS, LOT_MORE } from '../form/pileFields.ts';
import { plainFault } from '../form/plainFault.ts';
import { Problem } from '../problem.ts';
import type { JobRow } from '../store/jobs.ts';
import { addDraft } from './jobs.ts';
import { draftOf, formOf, jobIn, nameOf, readBody } from './request.ts';
import { readUpload } from './upload.ts';

/** More rows are read and taken, and not shown; rows left out and rows with faults are shown first. */
const ROWS_SHOWN = 200;

export function barRoutes(context: Context): Router {
  const { store, clock } = context;
  const router = Router();

  // A new job whose pile is the list.
  router.post('/jobs/bars', readBody, (request, response) => {
    const form = formOf(context, request);
    const list = listIn(form);
    if (form.get('do') !== 'take' || !hasLength(list)) {
      render(response, null, list, form.get('text') ?? '', form.get('name') ?? '');
      return;
    }
    const name = (form.get('name') ?? '').trim().slice(0, 200) || 'New job';
    const draft: Draft = { format: JOB_FORMAT, name, pile: [], voids: [{ void: 'V1' }] };
    appendLots(draft, lotsOf(rowsOf(list, 'taken')));
    response.redirect(303, `/jobs/${addDraft(context, draft)}`);
  });

  // Below the lots that a job has already.
  router.post('/jobs/:job/bars', readUpload, readBody, (request, response) => {
    const form = formOf(context, request);
    const job = jobIn(context, request);
    if (request.file || form.get('columns') === undefined) {
      showList(response, job, request.file?.buffer ?? Buffer.from(form.get('text') ?? ''), '', pileOf(context, job));
      return;
    }
    const list = listIn(form);
    if (form.get('do') !== 'take' || !hasLength(list)) {
      render(response, job, list, form.get('text') ?? '', '', pileOf(context, job));
      return;
    }
    const draft = draftOf(store.jobs.body(job.id));
    appendLots(draft, lotsOf(rowsOf(list, 'taken')));
    if (listAt(draft, ['pile']).length > LOTS_AT_MOST)
      throw new Problem('file-refused', [`A job holds at most ${LOTS_AT_MOST} lots, and this one would hold more.`]);
    store.jobs.save(job.id, job.revision, nameOf(draft), JSON.stringify(draft), clock().toISOString());
    response.redirect(303, `/jobs/${job.id}?saved=1#pile`);
  });

  return router;
}

const NO_TEXT = 'The file is no text. In a spreadsheet, save the sheet as CSV, and bring that file in.';

/** Answers with the page of a list as it was brought; refused only where it is no list at all. */
export function showList(
  response: Response,
  job: JobRow | null,
  bytes: Uint8Array,
  fileName: string,
  pile: unknown[] = [],
): void {
  const text = listText(bytes);
  if (text === null) throw new Problem('file-refused', [NO_TEXT]);
  const read = readList(text);
  if (!read.ok) throw new Problem('file-refused', read.why);
  render(response, job, read.list, text, fileName.replace(/\.[^.]*$/, '').slice(0, 200) || 'New job', pile);
}

/** The list that a form carries, its columns and the rows left out as they were chosen there. */
function listIn(form: Posted): BarList {
  const read = readList(form.get('text') ?? '');
  if (!read.ok) throw new Problem('file-refused', read.why);
  const { list } = read;
  const known = new Map(COLUMNS.map(([column]) => [column as string, column]));
  const columns = list.columns.map((column, n): Column | null => {
    const chosen = form.get(`column.${n}`);
    return chosen === undefined ? column : (known.get(chosen) ?? null);
  });
  const left = new Set(list.numbers.filter((number) => form.get(`leave.${number}`) !== undefined));
  return { ...list, columns, left };
}

function pileOf({ store }: Context, job: JobRow): unknown[] {
  return listAt(draftOf(store.jobs.body(job.id)), ['pile']);
}

function render(
  response: Response,
  job: JobRow | null,
  list: BarList,
  text: string,
  name: string,
  pile: unknown[] = [],
): void {
  const rows = showRows(rowsOf(list, 'taken'), pile);
  // What is left out is shown as it would be read, and nothing is found wrong with it.
  const left = showRows(rowsOf(list, 'left'), []).map((row) => ({ ...row, isLeft: true, faults: [] }));
  const faulty = rows.filter((row) => row.faults.length > 0);
  const sorted = [...left, ...faulty, ...rows.filter((row) => row.faults.length === 0)];
  response.render('bars', {
    job,
    name,
    text,
    offered: COLUMNS,
    columns: list.headings.map((heading, n) => ({
      heading: heading || `column ${n + 1}`,
      column: list.columns[n] ?? '',
    })),
    twice: COLUMNS.filter(([column]) => list.columns.filter((other) => other === column).length > 1).map(
      ([, words]) => words,
    ),
    lacksLength: !hasLength(list),
    rows: sorted.slice(0, ROWS_SHOWN),
    leftUnseen: left.slice(ROWS_SHOWN).map(({ row }) => row),
    left: left.length,
    all: sorted.length,
    faulty: faulty.length,
  });
}

interface RowShown {
  /** As the list counts: the headings are row 1. */
  row: number;
  isLeft: boolean;
  lot: string;
  section: string;
  lengths: string;
  count: string;
  massPerMetre: string;
  coating: string;
  note: string;
  faults: FaultShown[];
}

interface FaultShown {
  label: string;
  message: string;
  remedy: string;
}

/** Every row as its lot was read, with the faults that the job would have by it. */
function showRows(list: BarList, pile: unknown[]): RowShown[] {
  const draft: Draft = {
    format: JOB_FORMAT,
    name: 'a list',
    pile: structuredClone(pile),
    voids: [{ void: 'V', length: 1000, width: 100, height: 100 }],
  };
  appendLots(draft, lotsOf(list));
  const read = readJobValue(draft);
  const faults = new Map<number, FaultShown[]>();
  for (const fault of read.ok ? [] : read.faults) {
    const index = Number(/^pile\[(\d+)\]/.exec(fault.path)?.[1] ?? -1) - pile.length;
    if (index >= 0) faults.set(index, [...(faults.get(index) ?? []), showFault(fault, draft)]);
  }
  return listAt(draft, ['pile'])
    .slice(pile.length)
    .map((lot, n) => {
      const value = (name: string): unknown => valueAt(lot, [name]);
      const { shape, sizes } = showSection(isRecord(lot) ? lot.section : undefined);
      return {
        row: list.numbers[n] ?? n + 2,
        isLeft: false,
        lot: showField('text', value('lot')),
        section: `${shape} ${sizes}`.trim(),
        lengths: showField('mm', value('length')) || showField('lengths', value('lengths')),
        count: showField('number', value('count')),
        massPerMetre: showField('kgPerMetre', value('massPerMetre')),
        coating: showField('choice', value('coating')),
        note: showField('note', value('note')),
        faults: faults.get(n) ?? [],
      };
    });
}

/** A fault under the label of its field in the pile. */
function showFault(fault: Fault, draft: Draft): FaultShown {
  const [, name] = /^pile\[\d+\]\.(\w+)/.exec(fault.path) ?? [];
  const field = [...LOT_FIELDS, ...LOT_MORE].find(({ path }) => path === name);
  const { message, remedy } = plainFault(fault, valueAt(draft, parsePath(fault.path) ?? []), field);
  return { label: field?.label ?? (name === 'section' ? 'Section' : 'Lot'), message, remedy };
}
