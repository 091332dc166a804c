/** Job files in and out, and the formats of job and plan files. */
import { type Request, Router } from 'express';
import { LOTS_AT_MOST, VOIDS_AT_MOST } from '../../src/job/job.ts';
import { readJson } from '../../src/job/jsonText.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { FILE_KINDS, fileSchema } from '../../src/plan/fileSchema.ts';
import { PLAN_FORMAT } from '../../src/plan/planFormat.ts';
import type { Context } from '../app.ts';
import { faultLines } from '../exit.ts';
import { isRecord, listAt } from '../form/path.ts';
import { Problem } from '../problem.ts';
import { showList } from './bars.ts';
import { addDraft } from './jobs.ts';
import { draftOf, formOf, jobIn, sendFile } from './request.ts';
import { readUpload } from './upload.ts';

export function fileRoutes(context: Context): Router {
  const { store } = context;
  const router = Router();

  router.post('/jobs/bring', readUpload, (request, response) => {
    const form = formOf(context, request);
    const text = request.file?.buffer ?? Buffer.from(form.get('text') ?? '');
    if (isList(request)) showList(response, null, text, request.file?.originalname ?? '');
    else response.redirect(303, `/jobs/${addDraft(context, readDraft(text))}`);
  });

  router.get('/jobs/:job/job.json', (request: Request, response) => {
    const job = jobIn(context, request);
    const text = JSON.stringify(draftOf(store.jobs.body(job.id)), null, 2);
    sendFile(response, job.name, '.job.json', 'application/json', `${text}\n`);
  });

  router.get('/schema/:file', (request, response) => {
    const kind = FILE_KINDS.find((one) => request.params.file === `${one}.json`);
    if (!kind) throw new Problem('no-such-page');
    response.type('application/schema+json').send(fileSchema(kind));
  });

  return router;
}

/** True of an upload that is named as a list of bars, or as the spreadsheet that one is saved from. */
function isList(request: Request): boolean {
  return /\.(csv|tsv|txt|xlsx?|ods)$/i.test(request.file?.originalname ?? '');
}

/** Files of kentledge's own that are no jobs. */
const OTHER_FILES: ReadonlyMap<unknown, string> = new Map([
  [PLAN_FORMAT, 'This is a plan. Bring in the job file that it was made for, and plan it here.'],
  ['kentledge-cutlist/1', 'This is a cut list, which the command “kentledge cut” takes, and no job.'],
]);

/** A job file as a draft, faults and all; refused only where it is no job of this version at all. */
function readDraft(text: string | Uint8Array): Record<string, unknown> {
  const read = readJson(text);
  if (!read.ok) throw new Problem('file-refused', faultLines(read.faults));
  if (!isRecord(read.value))
    throw new Problem('file-refused', ['The file is JSON, but not a job: a job begins with {.']);
  const other = OTHER_FILES.get(read.value.format);
  if (other !== undefined) throw new Problem('file-refused', [other]);
  if (listAt(read.value, ['pile']).length > LOTS_AT_MOST || listAt(read.value, ['voids']).length > VOIDS_AT_MOST) {
    throw new Problem('file-refused', [`A job holds at most ${LOTS_AT_MOST} lots and ${VOIDS_AT_MOST} voids.`]);
  }
  const faults = readJobValue(read.value);
  const newer = faults.ok ? [] : faults.faults.filter((fault) => fault.code === 'newer-file');
  if (newer.length > 0) throw new Problem('file-refused', faultLines(newer));
  return writable(read.value) as Record<string, unknown>;
}

/** The same with every number too large for the machine as text, to be told and mended: written again it would be null. */
function writable(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(writable);
  if (isRecord(value)) return Object.fromEntries(Object.entries(value).map(([name, own]) => [name, writable(own)]));
  if (typeof value !== 'number' || Number.isFinite(value)) return value;
  return value > 0 ? '1e999' : '-1e999';
}
