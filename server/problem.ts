/**
 * What can go wrong with a request, as the user is told it: one list, one place that maps it to HTTP. A page of these
 * always says what to do next.
 */

import { isNotWritten } from './notWritten.ts';

export const PROBLEMS = {
  'no-such-page': { status: 404, title: 'There is no such page', next: 'Go to the list of jobs and on from there.' },
  'no-such-job': {
    status: 404,
    title: 'There is no such job',
    next: 'It may have been deleted. The list of jobs shows what is there, and what can be put back.',
  },
  'no-such-plan': {
    status: 404,
    title: 'There is no such plan',
    next: 'A plan goes only with its job. If you followed a tag, its job was deleted, or it belongs to another kentledge.',
  },
  'no-such-bundle': {
    status: 404,
    title: 'The plan has no such bundle',
    next: 'Compare the mark on the tag with the plan that the page names.',
  },
  'not-readable': {
    status: 400,
    title: 'The request could not be read',
    next: 'Go back, load the page again, and repeat what you did.',
  },
  'stale-form': {
    status: 403,
    title: 'This form did not come from this kentledge',
    next: 'Nothing was changed. Load the page again and repeat what you did; what you typed is still in the other window.',
  },
  'wrong-host': {
    status: 421,
    title: 'This kentledge does not answer under that name',
    next: 'Open it under the address that it printed when it was started, or start it with --host and this name.',
  },
  'too-large': {
    status: 413,
    title: 'That is more than kentledge reads',
    next: 'Five megabytes are the limit for one job. Divide the job, or take out what is not needed.',
  },
  'wrong-kind': {
    status: 415,
    title: 'The request is of a kind that kentledge does not read',
    next: 'Use the forms of these pages.',
  },
  'file-refused': { status: 422, title: 'The file was not taken in', next: 'Mend the file and bring it in again.' },
  'has-faults': {
    status: 422,
    title: 'The job has faults',
    next: 'Everything typed was kept. Mend what is marked on the job, then come back.',
  },
  'not-written': {
    status: 507,
    title: 'It could not be written to the disk',
    next: 'Nothing was changed, and what was saved before is safe. The disk of the machine where kentledge runs is full, may not be written to, or another program is using kentledge’s file: make room there, or wait for that program, then go back, where what you typed still stands, and do it once more.',
  },
  defect: {
    status: 500,
    title: 'Something in kentledge itself went wrong',
    next: 'What was saved before is safe. Go back and try once more; if it happens again, take the job file out and report it.',
  },
} as const;

export type ProblemCode = keyof typeof PROBLEMS;

/** Thrown by a route to answer with a page of {@link PROBLEMS}. `detail` are sentences for the user, one a line. */
export class Problem extends Error {
  override name = 'Problem';
  readonly code: ProblemCode;
  readonly detail: string[];

  constructor(code: ProblemCode, detail: string[] = []) {
    super(code);
    this.code = code;
    this.detail = detail;
  }
}

/** The problem behind anything that was thrown on the way to an answer. What nobody foresaw is a defect. */
export function problemOf(error: unknown): Problem {
  if (error instanceof Problem) return error;
  const { status, type, name, code } = (error ?? {}) as {
    status?: number;
    type?: string;
    name?: string;
    code?: string;
  };
  if (isNotWritten(error)) return new Problem('not-written');
  if (status === 413 || type === 'parameters.too.many' || code?.startsWith('LIMIT_')) return new Problem('too-large');
  if (status === 415) return new Problem('wrong-kind');
  if (name === 'MulterError' || name === 'URIError') return new Problem('not-readable');
  if (status !== undefined && status >= 400 && status < 500) return new Problem('not-readable');
  return new Problem('defect');
}
