/** What a file says it is: the wanted format, another file of ours, one of a newer kentledge, or nothing known. */
import type { Fault } from '../fault.ts';
import { isNewerVersion, VERSION } from '../version.ts';

const KINDS: Record<string, string> = {
  job: 'a job',
  plan: 'a plan',
  cutlist: 'a cut list',
  cutplan: 'the answer to a cut list',
};

/** The fault in `raw.format`, null where it is `format`. `file` names the wanted kind in the sentences. */
export function formatFault(raw: unknown, format: string, file: string): Fault | null {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
    const remedy = `Give the ${file} file as kentledge writes it, beginning with { "format": "${format}" }.`;
    return { path: '', code: 'wrong-type', message: `The file holds no ${file}.`, remedy };
  }
  const found = (raw as Record<string, unknown>).format;
  if (found === format) return null;
  if (found === undefined) {
    const message = 'The file does not say which format it has.';
    return { path: 'format', code: 'missing-field', message, remedy: `Add "format": "${format}".` };
  }
  const [, kind, number] = /^kentledge-([a-z]+)\/(\d+)$/.exec(String(found)) ?? [];
  if (kind !== undefined && `kentledge-${kind}/${number}` !== format) {
    const [, wantedKind, wantedNumber] = /^kentledge-([a-z]+)\/(\d+)$/.exec(format) ?? [];
    if (kind === wantedKind && Number(number) > Number(wantedNumber)) {
      const message = `The file is ${found}, written by a newer kentledge; this one reads ${format}.`;
      return { path: 'format', code: 'newer-file', message, remedy: `Install the kentledge that writes ${found}.` };
    }
    const message = `The file is ${KINDS[kind] ?? 'another file'} (${found}), and a ${file} is wanted here.`;
    return { path: 'format', code: 'wrong-type', message, remedy: `Give the ${file} file, ${format}.` };
  }
  const message = `The format ${JSON.stringify(found)?.slice(0, 60)} is not known.`;
  return { path: 'format', code: 'out-of-range', message, remedy: `Write "format": "${format}".` };
}

/** The fault of a job that says it needs a later kentledge than this one, whatever else it holds; null of any other. */
export function needsFault(raw: unknown): Fault | null {
  const { needs } = raw as { needs?: unknown };
  if (!isNewerVersion(needs)) return null;
  const message = `The job needs kentledge ${needs}; this is ${VERSION}.`;
  return { path: 'needs', code: 'newer-file', message, remedy: `Install kentledge ${needs} or a later one.` };
}
