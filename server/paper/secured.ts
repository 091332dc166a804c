/** What a sheet says at its head about the hold-down: NOT SECURED until every assumed load is carried by what was entered. */
import { INK, WARM } from '../../src/drawing/style.ts';
import type { HeldVoid } from '../../src/hold/holdDown.ts';
import type { Paper } from './page.ts';
import { SECURED_WORDS as W } from './stowageWords.ts';

/** Whether every void that carries bundles is held. */
export function allHeld(voids: HeldVoid[]): boolean {
  return voids.every((entry) => entry.held);
}

export function writeNotSecured(paper: Paper): void {
  banner(paper, W.notSecured, 13, WARM, 1.8);
}

/** Carried on paper, which is not yet fitted, nor approved. */
export function writeHeld(paper: Paper): void {
  banner(paper, W.held, 9.5, INK, 0.8);
}

function banner(paper: Paper, words: string, size: number, colour: string, width: number): void {
  const { doc, letters, left } = paper;
  doc.undash().lineWidth(width).strokeColor(colour).rect(left, paper.y, paper.width, 24).stroke();
  const { lines, size: fitted } = letters.fit(words, paper.width - 12, 22, size, 6, 'bold');
  const top = paper.y + (24 - lines.length * fitted * 1.22) / 2;
  letters.block(lines, left + paper.width / 2, top, { size: fitted, weight: 'bold', align: 'centre' });
  paper.y += 30;
}
