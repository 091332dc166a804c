/** Reads a plan file: JSON, format, schema; whether it is right for its job is the checker's question. */
import type { Read } from '../fault.ts';
import { formatFault } from '../job/formatFault.ts';
import { readJson } from '../job/jsonText.ts';
import { schemaFaults } from '../job/schemaFaults.ts';
import { isNewerVersion, VERSION } from '../version.ts';
import { type Plan, planSchema } from './plan.ts';
import { PLAN_FORMAT } from './planFormat.ts';

/** Reads the text of a plan file: every fault at once. A file of a newer format is refused with that said. */
export function readPlan(text: string | Uint8Array): Read<Plan> {
  const json = readJson(text);
  if (!json.ok) return json;
  const format = formatFault(json.value, PLAN_FORMAT, 'plan');
  if (format?.code === 'newer-file' || format?.code === 'wrong-type') return { ok: false, faults: [format] };
  const parsed = planSchema.safeParse(json.value);
  if (parsed.success) return { ok: true, value: parsed.data };
  const found = schemaFaults(planSchema, json.value, 'plan').filter((fault) => fault.path !== 'format');
  const faults = [...(format ? [format] : []), ...found];
  const { engine } = json.value as { engine?: unknown };
  if (faults.some((fault) => fault.code === 'unknown-field') && isNewerVersion(engine)) {
    const message = `The plan was written by kentledge ${engine}; this is ${VERSION}, which does not know all its fields.`;
    faults.unshift({ path: 'engine', code: 'newer-file', message, remedy: `Install kentledge ${engine}.` });
  }
  return { ok: false, faults };
}
