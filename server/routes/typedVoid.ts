/** Pages on which the fields of one void are typed beside what follows from them: read from the address, saved by a form. */
import type { Request, Response } from 'express';
import type { Context } from '../app.ts';
import type { Draft, Posted } from '../form/apply.ts';
import { listAt } from '../form/path.ts';
import { postedForm } from '../form/posted.ts';
import { checkToken } from '../security.ts';
import type { JobRow } from '../store/jobs.ts';
import { draftOf, nameOf, queryOf, revisionIn } from './request.ts';

/**
 * What stands in a form that asks by its address and is posted by a button beside the answer: the button's own address
 * holds token and revision, so that the form has neither and they stay out of the address that is shown.
 */
export function typedForm({ token }: Context, request: Request): Posted {
  const form = new Map([...queryOf(request), ...postedForm(request.body)]);
  checkToken(token, form.get('token'));
  return form;
}

/** So many letters of an address pass every server and proxy on the way; a form that comes to more is posted. */
export const ADDRESS_AT_MOST = 6000;

/** How long an address becomes by these fields, letters. */
export function addressLength(fields: readonly { name: string; value: string }[]): number {
  return String(new URLSearchParams(fields.map(({ name, value }): [string, string] => [name, value]))).length;
}

/** The void asked for as `void`, from 0; the first where none is. */
export function voidOf(typed: Posted): number {
  const number = Number(typed.get('void') ?? 1);
  return Number.isSafeInteger(number) && number >= 1 ? number - 1 : 0;
}

/** Whether a job has any void: who asked for one past the last is led to the first. */
export function hasVoidsNow({ store }: Context, row: JobRow): boolean {
  return listAt(draftOf(store.jobs.body(row.id)), ['voids']).length > 0;
}

/** The page of the void once more, told that it is saved. */
export function savedVoid(row: JobRow, form: Posted, page: string): string {
  return `/jobs/${row.id}/${page}?void=${voidOf(form) + 1}&saved=1`;
}

/** Saves what was typed and goes on to the page `next`; a form that comes too late is kept beside the job, and that is shown. */
export function saveTyped(
  { store, clock }: Context,
  row: JobRow,
  form: Posted,
  draft: Draft,
  next: string,
  response: Response,
): void {
  const body = JSON.stringify(draft);
  const saved = store.jobs.save(row.id, revisionIn(form), nameOf(draft), body, clock().toISOString());
  response.redirect(303, saved.kind === 'late' ? `/jobs/${row.id}#beside-${saved.draft}` : next);
}
