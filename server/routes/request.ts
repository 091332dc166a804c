/** What routes read from a request: numbers in its address, its form. Each throws the `Problem` that fits. */
import express, { type Request, type RequestHandler, type Response } from 'express';
import type { Units } from '../../src/units.ts';
import type { Context } from '../app.ts';
import type { Draft, Posted } from '../form/apply.ts';
import { isRecord } from '../form/path.ts';
import { postedForm } from '../form/posted.ts';
import { Problem, type ProblemCode } from '../problem.ts';
import { checkToken } from '../security.ts';
import type { JobRow } from '../store/jobs.ts';
import type { Settings } from '../store/store.ts';

/** The most that is read of one request, as of one job file. */
export const BODY_LIMIT = 5 * 1024 * 1024;
/** The most fields of one form. */
const FIELDS = 60_000;
/** The most letters of a figure. */
const FIGURE_LONGEST = 40;

export const readBody: RequestHandler = express.urlencoded({
  extended: false,
  limit: BODY_LIMIT,
  parameterLimit: FIELDS,
});

/** The posted form, once its token was found right. */
export function formOf({ token }: Context, request: Request): Posted {
  const form = postedForm(request.body);
  checkToken(token, form.get('token'));
  return form;
}

/** The query as a form: names hold brackets and points, which the framework's own reader would take apart. */
export function queryOf(request: Request): Posted {
  return new Map(new URL(request.originalUrl, 'http://localhost').searchParams);
}

/** A figure typed into a form that asks by its address, by its name; nobody types a longer one. */
export function figuresIn(request: Request): (name: string) => string | undefined {
  const typed = queryOf(request);
  return (name) => typed.get(name)?.slice(0, FIGURE_LONGEST);
}

/** A whole number from 1 in the address. */
export function numberIn(request: Request, name: string, missing: ProblemCode): number {
  const text = request.params[name];
  if (typeof text !== 'string' || !/^[1-9]\d{0,14}$/.test(text)) throw new Problem(missing);
  return Number(text);
}

/** The job that the address names, unless it was deleted. */
export function jobIn({ store }: Context, request: Request): JobRow {
  const job = store.jobs.find(numberIn(request, 'job', 'no-such-job'));
  if (!job || job.deletedAt !== null) throw new Problem('no-such-job');
  return job;
}

/** The text of a job's draft as a JSON object; a draft is stored as one. */
export function draftOf(body: string | null): Draft {
  const value: unknown = body === null ? {} : JSON.parse(body);
  return isRecord(value) ? value : {};
}

/** The revision that a form was shown from; 0, which is none, where it says nothing that can be read. */
export function revisionIn(form: Posted): number {
  const revision = Number(form.get('revision'));
  return Number.isSafeInteger(revision) ? revision : 0;
}

/** The draft that a form was shown from, over which it is read; the present one where that is no longer kept. */
export function baseOf({ store }: Context, job: JobRow, form: Posted): Draft {
  return draftOf(store.jobs.body(job.id, revisionIn(form)) ?? store.jobs.body(job.id));
}

/** No name of a job is longer. */
const NAME_LONGEST = 200;

/** The name that a draft gives its job, without what is never printed and no longer than a name may be, faulted as the draft is then. */
export function nameOf(draft: Draft): string {
  const typed = typeof draft.name === 'string' ? draft.name.trim().slice(0, NAME_LONGEST) : '';
  const name = typed.replaceAll(/[\p{Cc}\p{Cs}]+/gu, ' ').trim();
  return name === '' ? 'Job without a name' : name;
}

/** Sends text as a file to save, under a name of plain characters; `end` is what tells its kind, and is never shortened. */
export function sendFile(response: Response, name: string, end: string, type: string, text: string): void {
  response
    .attachment(`${plainName(name)}${end}`)
    .type(type)
    .send(text);
}

/** The beginning of a file name that every system takes. */
export function plainName(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll(/[^A-Za-z0-9._]+/g, '-')
    .replaceAll(/^[-.]+|-+$/g, '');
  return plain === '' ? 'kentledge' : plain.slice(0, 80);
}

/** How the lengths and masses of a job are shown. */
export function unitsOf(settings: Settings, job: number): Units {
  return settings.get(`units of job ${job}`) === 'inches' ? 'inches' : 'metric';
}

export function setUnits(settings: Settings, job: number, units: Units): void {
  settings.set(`units of job ${job}`, units);
}

/** Numbers of voids as an address or a form has them: one, or several of one name. */
export function numbersOf(asked: unknown): number[] {
  return [asked].flat().flatMap((one) => (typeof one === 'string' && /^\d{1,5}$/.test(one) ? [Number(one)] : []));
}
