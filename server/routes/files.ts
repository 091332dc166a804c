/** Job and plan files, in and out. */
import { type Request, Router } from 'express';
import multer from 'multer';
import { readJson } from '../../src/job/jsonText.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import type { Context } from '../app.ts';
import { faultLines } from '../exit.ts';
import { isRecord } from '../form/path.ts';
import { Problem } from '../problem.ts';
import { addDraft } from './jobs.ts';
import { BODY_LIMIT, draftOf, formOf, jobIn, sendFile } from './request.ts';

const readUpload = multer({
  storage: multer.memoryStorage(),
  limits: { fileSize: BODY_LIMIT, fieldSize: BODY_LIMIT, fields: 10, files: 1, parts: 12 },
}).single('file');

/** How deep a job may nest; the format itself needs six levels. */
const DEEPEST = 32;

export function fileRoutes(context: Context): Router {
  const { store } = context;
  const router = Router();

  router.post('/jobs/bring', readUpload, (request, response) => {
    const form = formOf(context, request);
    const text = request.file ? request.file.buffer : (form.get('text') ?? '');
    response.redirect(303, `/jobs/${addDraft(context, readDraft(text))}`);
  });

  router.get('/jobs/:job/job.json', (request: Request, response) => {
    const job = jobIn(context, request);
    const text = JSON.stringify(draftOf(store.jobs.body(job.id)), null, 2);
    sendFile(response, `${job.name}.job.json`, 'application/json', `${text}\n`);
  });

  return router;
}

/** A job file as a draft, faults and all; refused only where it is no job of this version at all. */
export function readDraft(text: string | Uint8Array): Record<string, unknown> {
  const read = readJson(text);
  if (!read.ok) throw new Problem('file-refused', faultLines(read.faults));
  if (!isRecord(read.value))
    throw new Problem('file-refused', ['The file is JSON, but not a job: a job begins with {.']);
  if (depthOf(read.value) > DEEPEST) throw new Problem('file-refused', ['The file nests deeper than any job does.']);
  const faults = readJobValue(read.value);
  const newer = faults.ok ? [] : faults.faults.filter((fault) => fault.code === 'newer-file');
  if (newer.length > 0) throw new Problem('file-refused', faultLines(newer));
  return read.value;
}

/** Levels of nesting, counted without recursion so that no file can exhaust the stack. */
function depthOf(value: unknown): number {
  let depth = 0;
  let level: unknown[] = [value];
  while (level.length > 0 && depth <= DEEPEST) {
    level = level.flatMap((entry) => (typeof entry === 'object' && entry !== null ? Object.values(entry) : []));
    depth++;
  }
  return depth;
}
