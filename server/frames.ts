/** Of an error's text what is ours to log: its kind and where it was thrown. Its message may quote a job, and stays out. */
export function framesOf(text: string): string {
  const lines = text.split('\n').filter((line) => /^\s+at /.test(line) || /^\w*(Error|Defect)\b/.test(line));
  return lines.map((line) => line.replace(/^(\w*(?:Error|Defect)).*$/, '$1')).join('\n');
}
