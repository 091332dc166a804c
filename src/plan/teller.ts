/** What is told while planning: step after step, with the best value so far and what no plan is worth more than. */
import type { Plan } from './plan.ts';
import type { PlanOptions } from './planner.ts';
import type { Bounds } from './toldBound.ts';

export class Teller {
  private readonly onProgress: PlanOptions['onProgress'];
  private readonly bounds: Bounds;
  private readonly best: () => Plan | null;
  private step = 0;
  private phase = 'first plan';

  /** `best`: the best plan that may be given. */
  constructor(onProgress: PlanOptions['onProgress'], bounds: Bounds, best: () => Plan | null) {
    this.onProgress = onProgress;
    this.bounds = bounds;
    this.best = best;
  }

  /** One step more, of the phase before where none is named; `plan` where it is the best so far. */
  tell(phase = this.phase, plan?: Plan): void {
    this.phase = phase;
    this.onProgress?.({
      phase,
      step: ++this.step,
      value: this.best()?.bound.value ?? null,
      bound: Number.isFinite(this.bounds.any) ? this.bounds.any : null,
      ...(plan ? { plan } : {}),
    });
  }
}
