/** Every page works without this. What it adds: progress as it happens, drawings and sums as they are typed. */
import { liftInPlace, tellTouchedBundle } from './bundles.ts';
import { dragKeepOuts } from './drag.ts';
import { writeLikePaper } from './lines.ts';
import { followProgress } from './progress.ts';
import { sketchWhileTyping } from './typing.ts';
import { chooseViews } from './views.ts';

const working = document.querySelector<HTMLElement>('[data-progress]');
if (working) followProgress(working);

const job = document.querySelector<HTMLFormElement>('#job-form');
if (job) {
  sketchWhileTyping(job);
  for (const place of job.querySelectorAll<HTMLElement>('.sketches')) chooseViews(place);
  for (const space of job.querySelectorAll<HTMLElement>('.void')) dragKeepOuts(space);
  const lots = job.querySelector<HTMLElement>('.lots');
  if (lots) writeLikePaper(lots);
}

const main = document.querySelector<HTMLElement>('main');
if (main?.querySelector('.stow')) {
  liftInPlace(main);
  tellTouchedBundle(main);
}
