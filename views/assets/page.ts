/** Every page works without this. What it adds: progress as it happens, drawings and sums as they are typed. */
import { showAnew } from './anew.ts';
import { liftInPlace, markBundleGoneTo, tellTouchedBundle, tellTouchedPiece } from './bundles.ts';
import { followTyping } from './follow.ts';
import { moveFitted } from './handles.ts';
import { keepHintsInSight } from './hints.ts';
import { writeLikePaper } from './lines.ts';
import { sendOnce } from './once.ts';
import { goToRow, keepPlace } from './place.ts';
import { followProgress } from './progress.ts';
import { forgetSent, keepSent } from './sent.ts';
import { keepTicks } from './ticks.ts';
import { sketchWhileTyping } from './typing.ts';
import { chooseViews } from './views.ts';
import { reachWideDrawings } from './wide.ts';

keepHintsInSight();
sendOnce();
if (document.querySelector('[data-anew]')) showAnew();

const working = document.querySelector<HTMLElement>('[data-progress]');
if (working) followProgress(working);

for (const form of document.querySelectorAll<HTMLFormElement>('form[data-follow]')) {
  followTyping(form);
  goToRow(form);
}

const ticks = document.querySelector<HTMLFormElement>('form[data-ticks]');
if (ticks) keepTicks(ticks);

const job = document.querySelector<HTMLFormElement>('#job-form');
if (job) {
  keepPlace(job);
  sketchWhileTyping(job);
  for (const place of job.querySelectorAll<HTMLElement>('.sketches')) chooseViews(place);
  for (const space of job.querySelectorAll<HTMLElement>('.void')) moveFitted(space);
  const lots = job.querySelector<HTMLElement>('.lots');
  if (lots) writeLikePaper(lots);
  keepSent(job);
}
forgetSent();

for (const form of document.querySelectorAll<HTMLFormElement>('#taken-form, form[data-again]')) keepSent(form);

const main = document.querySelector<HTMLElement>('main');
if (main) reachWideDrawings(main);
if (main?.querySelector('.stow')) {
  liftInPlace(main);
  tellTouchedBundle(main);
  tellTouchedPiece(main);
  markBundleGoneTo(main);
}
