/** Every page works without this. What it adds: a plan's progress as it happens. */
import { followProgress } from './progress.ts';

const working = document.querySelector<HTMLElement>('[data-progress]');
if (working) followProgress(working);
