/** Figures typed into a form that is only looked at: what was typed stays as it was typed. */

export interface Asked {
  text: string;
  /** Null where nothing was typed, or nothing that is a number. */
  value: number | null;
  faulty: boolean;
}

/** Reads one figure; a comma is taken for a point, a real minus sign for a hyphen. */
export function readFigure(text: string): Asked {
  const trimmed = text.trim();
  if (trimmed === '') return { text, value: null, faulty: false };
  const value = Number(trimmed.replace(',', '.').replace('−', '-'));
  return Number.isFinite(value) && Math.abs(value) <= 10_000_000
    ? { text, value, faulty: false }
    : { text, value: null, faulty: true };
}
