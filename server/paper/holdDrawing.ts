/** On a hold-down sheet: the void with what is fitted in it, drawn from above and across, and the table of its marks. */
import { holdCrossScene, sectionFittings } from '../../src/drawing/holdCross.ts';
import { holdView } from '../../src/drawing/holdPlace.ts';
import { holdPlanScene } from '../../src/drawing/holdPlan.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Scene } from '../../src/drawing/scene.ts';
import { fittingRows } from '../../src/hold/fittingRows.ts';
import type { HeldVoid } from '../../src/hold/holdDown.ts';
import type { Void } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { either, inchesOf, tell, unitsOf } from './feet.ts';
import { MM, plain } from './figures.ts';
import { FITTED_WORDS as W } from './fittedWords.ts';
import { ensureRoom, type Paper, writeParagraph } from './page.ts';
import { drawScene } from './pdfScene.ts';
import { type Column, writeTable } from './table.ts';

/** The first section stands beside the drawing from above, further ones below it. Mm of paper. */
const ABOVE = { width: 119, height: 88 };
const CROSS = { width: 60, height: 60 };
const BETWEEN = 2;

export async function writeFitted(paper: Paper, plan: Plan, space: Void, entry: HeldVoid): Promise<void> {
  const view = holdView(space, entry);
  if (!view) return;
  const laid = laidVoid(space, plan);
  const [end, other] = W.ends[laid.axis];
  const bundles = plan.bundles.filter((bundle) => bundle.void === space.void);
  const rows = fittingRows(space, laid.length, entry.covers, bundles);
  writeParagraph(paper, W.title, { size: 11, weight: 'bold' }, { above: 6, below: 2, keep: 120 });
  if (rows.length === 0) {
    writeParagraph(paper, W.bare, { size: 9.5, weight: 'bold' }, { above: 2 });
    return;
  }
  const units = unitsOf(paper);
  const above = holdPlanScene(space, plan, view, { ...ABOVE, units });
  const scenes = [
    { words: W.above, scene: above },
    ...sectionFittings(view).map((one) => ({
      words: one.settled ? tell(paper, W.across(one.mark, plain(one.middle))) : W.acrossAssumed(one.mark),
      scene: holdCrossScene(space, plan, view, one, { ...CROSS, units }),
    })),
  ];
  writeScenes(paper, scenes);
  writeParagraph(paper, W.measured(end, other), { size: 9 }, { above: 3, below: 3, keep: 60 });
  const width = paper.options.feet ? 76 : 58;
  const columns: Column[] = [
    { head: W.heads.mark, width: 46, bold: true },
    { head: W.heads.what, share: 4 },
    { head: either(paper, W.from(end), W.fromIn(end)), width, align: 'right', bold: true },
    { head: either(paper, W.from(other), W.fromIn(other)), width, align: 'right' },
    { head: W.heads.over, share: 2.6 },
    { head: W.heads.fixed, share: 4 },
  ];
  const none = (placeable: boolean) => (placeable ? W.unsettled : '');
  const at = (mm: number) => [inchesOf(paper, [mm], ''), plain(mm)].filter((words) => words !== '').join('\n');
  await writeTable(
    paper,
    columns,
    rows.map(({ marks, what, place, placeable, over, fixed }) => [
      marks,
      tell(paper, what),
      place ? at(place.from) : none(placeable),
      place ? at(place.to) : none(placeable),
      tell(paper, over),
      tell(paper, fixed),
    ]),
    { size: 9, rowHeight: 17 },
  );
  if (rows.some(({ place, placeable }) => placeable && !place)) {
    writeParagraph(paper, W.settle, { size: 9.5, weight: 'bold' }, { above: 4 });
  }
}

/** Row by row, as many side by side as there is room for, each under its words; on a new page where a row would be cut. */
function writeScenes(paper: Paper, scenes: { words: string; scene: Scene }[]): void {
  const { doc, letters, left } = paper;
  const full = paper.width / MM;
  let rest = scenes;
  while (rest.length > 0) {
    let width = -BETWEEN;
    const over = rest.findIndex(({ scene }) => {
      width += BETWEEN + scene.width;
      return width > full;
    });
    const row = rest.slice(0, over < 0 ? rest.length : Math.max(1, over));
    rest = rest.slice(row.length);
    const high = HEAD + Math.max(...row.map(({ scene }) => scene.height)) * MM + 3;
    ensureRoom(paper, high);
    let x = left;
    for (const { words, scene } of row) {
      const room = { width: scene.width * MM, height: HEAD - 2, least: 5 };
      letters.fitted(words, x, paper.y + 1, room, { size: 9, weight: 'bold' });
      drawScene(doc, letters, scene, x, paper.y + HEAD);
      x += (scene.width + BETWEEN) * MM;
    }
    paper.y += high;
  }
}

/** Room for the words over a drawing, points: two lines. */
const HEAD = 26;
