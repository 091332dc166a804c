import type { LinearEngine } from '../linear/model.ts';
import type { Berth } from '../stow/layout.ts';
import { bindsOf } from './binds.ts';
import { type Cutting, cutFrom } from './cutting.ts';
import { dive } from './dive.ts';
import type { DivisionSearch } from './divisionSearch.ts';
import { FIRST, MOST_CHOICES, sizeOf, type Work, workFor } from './effort.ts';
import { planFewest } from './fewest.ts';
import { cutFillings, jointFillings, type Making, makePlan, makingOf } from './finish.ts';
import { Finds, type Found, lengthsByMass, lengthsWithout, NEAR_BEST, scoreOf } from './found.ts';
import { generate } from './generate.ts';
import { Improver } from './improver.ts';
import { LengthPasses } from './lengthPasses.ts';
import { firstLengths, GRID } from './lengths.ts';
import { Master } from './master.ts';
import { whyNothing } from './nothing.ts';
import { oneMoreOf } from './oneMore.ts';
import { fillPlainly } from './plainFill.ts';
import type { Plan } from './plan.ts';
import type { PlanOptions, PlanResult } from './planner.ts';
import { berthsOf } from './pricing.ts';
import { FORGOTTEN, leantPrices, type Problem } from './problem.ts';
import { withinPile } from './rough.ts';
import { countStops, usesOf } from './short.ts';
import { Patience } from './stopped.ts';
import { stretchPile } from './stretch.ts';
import { Teller } from './teller.ts';
import type { Dived } from './tiers.ts';
import { type BoundOf, Bounds, missesAims, toldBound } from './toldBound.ts';
import { weighAims } from './weighAims.ts';

/** One planning: what is found on the way. */
export class Search {
  private readonly problem: Problem;
  private readonly options: PlanOptions;
  /** The most stops that the job and the caller allow. */
  private readonly most: number;
  private readonly making: Making;
  private readonly work: Work;
  private readonly master: Master;
  private readonly berths: Berth[][];
  private readonly lengths: number[][];
  private readonly finds: Finds;
  private readonly improver: Improver;
  private readonly passes: LengthPasses;
  /** Whether lengths that the bounder suggests may be used while improving. */
  private anyLength = true;
  /** The divisions found so far. */
  private divided: DivisionSearch | null = null;
  private readonly bounds: Bounds;
  /** The plan that is there at once. */
  private plain: Found | null = null;
  /** True where a plan was dived to, and nothing whole was left of it. */
  cameToNothing = false;
  private readonly teller: Teller;
  private readonly into: Search | null;

  /** `into`: a search of the same job by other rules, which takes what is found here, and tells it. */
  constructor(problem: Problem, engine: LinearEngine, options: PlanOptions, into: Search | null = null) {
    this.problem = problem;
    this.options = options;
    this.into = into;
    const asked = typeof options.stops === 'number' ? options.stops : Number.POSITIVE_INFINITY;
    this.most = Math.min(problem.job.aims.stopsAtMost ?? asked, asked);
    this.finds = new Finds(this.most, options.stops === undefined);
    this.work = workFor(options.effort ?? 'steady', sizeOf(problem), options.stops);
    this.making = makingOf(engine, options, this.work.cutting, this.most, this.stopped);
    problem.poll = this.patience.poll;
    this.bounds = new Bounds(problem.labour.stop);
    this.teller = new Teller(options.onProgress, this.bounds, () => this.finds.bestAble()?.plan ?? null);
    this.master = new Master(engine, problem);
    this.berths = berthsOf(problem);
    this.improver = new Improver(problem, this.berths, this.making, this.work);
    this.lengths = firstLengths(problem, GRID);
    this.passes = new LengthPasses({
      engine,
      problem,
      master: this.master,
      work: this.work,
      lengths: this.lengths,
      addLengths: () => this.addLengths(),
      generate: (rounds) => this.generate(this.lengths, { ...this.work, rounds }),
      told: this.told,
      onStep: () => this.tell('lengths'),
      shouldStop: this.stopped,
    });
  }

  /** Finds plans, until it is stopped. */
  find(): void {
    this.patience.while(() => this.findPlans());
  }

  /** The plan to give of all that was found. */
  give(): PlanResult {
    const plan = this.choose();
    return plan ? { kind: 'plan', plan } : { kind: 'nothing', reasons: whyNothing(this.problem) };
  }

  private findPlans(): void {
    this.offerPlain();
    this.addLengths();
    this.master.addEvenPatterns();
    this.generateFirst();
    weighAims(this.problem, this.master, () => this.generateFirst());
    const dives = !this.plainWillDo();
    const first = dives && !this.stopped() ? this.offerFirst() : null;
    this.leavePlain();
    this.passes.pass();
    const { again, divisions, improvements } = this.work;
    const divesAgain = again && (divisions === 0 || improvements === 0);
    const next = divesAgain && !this.stopped() ? this.offer('plan', this.lengths, this.work.diveRounds) : null;
    const dived = first && next && first.worth > next.worth ? first : (next ?? first);
    this.cameToNothing = dives && !dived;
    const start = dived ?? this.plain;
    if (start && !this.stopped()) this.improve(this.within(start), this.lengths, this.work.improvements, this.most);
    const asked = this.into?.most ?? Number.POSITIVE_INFINITY;
    const descends = this.work.descends && this.divided;
    if (descends) this.descend(descends, asked);
    this.fewStops(asked);
    if (!descends || this.finds.mostAble() === 0) this.fewerStops();
    this.withinStops();
    this.leavePlain();
  }

  /** The first plan that is dived to; where aims leave nothing that is whole, one that misses them. */
  private offerFirst(): Found | null {
    const { master, problem } = this;
    const { missPrices } = problem;
    const offer = () => this.offer('first plan', this.lengths, FIRST.diveRounds, this.work.atOnce);
    const first = offer();
    if (first || !master.mayMiss) return first;
    master.priceMisses(FORGOTTEN);
    this.generateFirst();
    const missing = offer();
    master.priceMisses(missPrices);
    // Plans are compared at one price: else one that misses the aims would stand over all others.
    if (missing) missing.score = scoreOf(problem, missing.plan, missing.fillings);
    this.generateFirst();
    return missing;
  }

  /** A plan that is there at once; the search that this one is found for has its own. */
  private offerPlain(): void {
    const { problem, into } = this;
    const plain = fillPlainly(problem, this.berths, this.making.engine, this.most);
    if (!plain) return;
    const found = this.made(plain, cutFrom(problem, usesOf(plain.fillings), plain.patterns));
    this.plain = found;
    if (found && into) this.finds.add(found);
    else if (found) this.take('first plan', found);
    this.tell('better');
  }

  /** Whether improving may begin from it: a dive that settles all runs at once came to nothing more at the end. */
  private plainWillDo(): boolean {
    return !this.work.divesFirst && this.plain !== null && !missesAims(this.plain.plan);
  }

  /** It is forgotten once there is one to give that is better. */
  private leavePlain(): void {
    const { plain, problem } = this;
    if (!plain) return;
    // At the prices of misses that there are by now.
    plain.score = scoreOf(problem, plain.plan, plain.fillings);
    this.finds.leaveWorse(plain);
  }

  /**
   * Divides the voids again and fills them, plans a few voids again and exchanges what runs hold, bars as shares; then makes
   * bars whole; round after round from the best shares so far. Where joints may stretch the pile that is tried too.
   */
  private improve(start: Found, lengths: number[][], rounds: number, most: number): void {
    const { problem, improver, work } = this;
    const { prices } = this.passes;
    const bounder = this.anyLength ? this.passes.bounder : null;
    const divisions = bounder && prices && work.divisions > 0 ? improver.divisions(prices, bounder, most) : null;
    const known = this.divided?.bestOf(most);
    const divided =
      divisions &&
      improver.divided(divisions, known ?? divisions.begin(this.master), lengths, () => this.tell('better'));
    this.divided ??= divided;
    let now: Dived = divided ? start : improver.runs(start);
    let whole: Dived | null = null;
    for (let i = 0; i < rounds && !this.stopped(); i++) {
      const filled = divided?.round();
      if (filled && (filled.worth > now.worth || countStops(now.fillings) > most)) now = filled;
      else if (filled) this.keepWhole('better', filled, work.barTries);
      for (let n = 0; n < work.voidTries && !this.stopped(); n++) {
        const next = improver.voids(now, lengths, bounder);
        if (countStops(next.fillings) <= Math.max(most, countStops(now.fillings))) now = next;
        this.tell('better');
      }
      if (this.stopped()) return;
      // What was just filled has had its runs exchanged.
      if (now !== whole && now !== filled) now = improver.runs(now);
      if (!whole || now.worth > whole.worth) this.keepWhole('better', now, work.barTries);
      whole = now;
      const pile = stretchPile(problem, this.finds.best()!.plan);
      const stretched = pile && !this.stopped() ? improver.someVoids(pile, now, lengths, bounder) : null;
      if (stretched) this.keep('better', stretched);
    }
  }

  /** The plan; where it has more stops than that one of its lengths that carry most, and from here on the master has no others. */
  private within(found: Found): Found {
    if (found.plan.totals.stops <= this.most) return found;
    return this.offerOf(new Set(lengthsByMass(found.plan).slice(0, this.most))) ?? found;
  }

  /** Plans of ever fewer stops, from the divisions that were found; `asked`: of so many too. */
  private descend(divided: DivisionSearch, asked: number): void {
    const { master, work, finds, stopped } = this;
    master.allow(this.lengths.map((own) => new Set(own)));
    planFewest(divided.descend(master, asked), {
      best: divided.best.worth,
      asked,
      tries: typeof this.options.stops === 'number' ? 0 : work.fewestTries,
      plan: (division) => this.keepWhole('fewer stops', divided.fill(division), work.barTries),
      isNear: ({ score }) => score >= NEAR_BEST * finds.mostAble(),
      shouldStop: stopped,
    });
  }

  /**
   * Plans of fewer stops at more effort, improved by one round: of half as many as the best has, and half as many again; where
   * divisions were brought down, of the fewest that are near the best, then of one less, as long as that is found.
   */
  private fewStops(asked: number): void {
    const { work, finds } = this;
    const best = finds.best();
    let most = best ? Math.min(best.plan.totals.stops, this.most) : 0;
    if (best && asked < most && this.divided) this.improve(best, this.lengths, 1, asked);
    for (let i = 0; best && i < work.fewRounds && !this.stopped(); i++) {
      const stops = finds.fewest()?.plan.totals.stops ?? most;
      const next = !this.divided ? Math.ceil(most / 2) : stops < most ? stops : stops - 1;
      if (next < 1 || (next >= most && i > 0)) return;
      most = next;
      const start = work.fewDives ? this.offerOf(new Set(lengthsByMass(best.plan).slice(0, most))) : null;
      if (!start) this.master.allow(this.lengths.map((own) => new Set(own)));
      this.improve(start ?? best, this.lengths, 1, most);
    }
  }

  /** A bound that holds, stops left out. */
  private readonly told = (value: number, of: BoundOf = 'aimed'): void => {
    this.bounds.take(value, of, this.master.mayMiss);
    this.tell('lengths');
  };

  /** Whole plans for a falling number of stops: the length that carries least steel is given up each time. */
  private fewerStops(): void {
    this.anyLength = false;
    let last = this.finds.chosen() ?? this.finds.best();
    for (let i = 0; i < MOST_CHOICES && !this.stopped(); i++) {
      if (!last || last.plan.totals.stops <= 1) return;
      const over = last.plan.totals.stops - this.most;
      if (over <= 0 && last.score < NEAR_BEST * this.finds.mostAble()) return;
      const kept = lengthsWithout(last.plan, Math.max(1, Math.ceil(over / 2)));
      const dived = over > 0 ? null : this.improver.without(last, kept);
      const near = dived && this.keepWhole('fewer stops', dived, this.work.barTries >> 2);
      const anew = over > 0 || (this.options.stops === undefined && this.work.again && this.work.passes > 1);
      last = near ?? (anew ? this.offerOf(kept) : null);
    }
  }

  /** Where nothing was found within the stops allowed: so many of the lengths that carry most, then of the next, again and again. */
  private withinStops(): void {
    const { most } = this;
    const best = this.finds.best();
    if (!best || !Number.isFinite(most) || this.finds.mostAble() > 0) return;
    const ranked = [...new Set([...lengthsByMass(best.plan), ...this.lengths.flat()])];
    for (const prices of [this.problem.missPrices, leantPrices(this.problem)]) {
      this.master.priceMisses(prices);
      for (let i = 0; i < MOST_CHOICES && i < ranked.length && !this.stopped(); i++) {
        this.offerOf(new Set(ranked.slice(i, i + most)));
        if (this.finds.mostAble() > 0) return;
      }
    }
  }

  /** Dives to a whole plan that has no other lengths than these. */
  private offerOf(kept: Set<number>): Found | null {
    const lengths = this.lengths.map((own) => own.filter((length) => kept.has(length)));
    this.master.allow(lengths.map((own) => new Set(own)));
    this.generate(lengths);
    return this.offer('fewer stops', lengths, this.work.diveRounds);
  }

  /** True where there is a plan to give. */
  get mayEnd(): boolean {
    return this.into ? this.into.mayEnd : this.finds.able().length > 0;
  }

  /** The plan to give: the worthiest within the stops allowed, or the fewest stops near enough to it. */
  private choose(): Plan | null {
    const best = this.finds.bestAble();
    const chosen = this.finds.chosen();
    if (!best || !chosen) return null;
    const { plan } = chosen;
    if (missesAims(plan)) this.patience.while(() => this.passes.boundMissed());
    const binds = bindsOf(this.problem, plan, this.passes.prices);
    const whole = { ...this.finish(plan), choice: this.finds.choice(plan), binds };
    const oneMore = this.patience.while(() => this.oneMore(best)) ?? [];
    return oneMore.length > 0 ? { ...whole, oneMore } : whole;
  }

  /** What one more of what binds would be worth, over the lengths of the plan; not asked for at effort quick. */
  private oneMore({ fillings }: Found): NonNullable<Plan['oneMore']> {
    const { making, problem, berths, master, passes } = this;
    if (!this.work.oneMore || !passes.prices || this.stopped()) return [];
    return oneMoreOf(making.engine, problem, { fillings, prices: passes.prices, berths, master });
  }

  /** The plan with its bound. */
  private finish(plan: Plan): Plan {
    return { ...plan, bound: toldBound(this.problem.job, plan, this.bounds) };
  }

  /** The first plan that may be given is always finished; after it the caller may stop at any step. */
  private readonly patience = new Patience(
    () => this.mayEnd && (this.options.shouldStop?.() ?? false),
    () => this.tell(),
  );
  private readonly stopped = this.patience.isOver;

  private addLengths(): void {
    this.lengths.forEach((own, steel) => {
      for (const length of own.sort((a, b) => a - b)) this.master.addLength(steel, length);
    });
  }

  private generateFirst(): void {
    this.generate(this.lengths, { rounds: this.work.firstRounds, tolerance: FIRST.tolerance });
  }

  private generate(lengths: number[][], { rounds, tolerance }: Pick<Work, 'rounds' | 'tolerance'> = this.work) {
    const options = { lengths, rounds, tolerance, shouldStop: this.stopped };
    return generate(this.problem, this.master, this.berths, options).prices;
  }

  /** Dives to a whole plan, makes its bars whole, and keeps it. */
  private offer(phase: string, lengths: number[][], rounds: number, atOnce = false): Found | null {
    const { engine } = this.making;
    const dived = dive(this.problem, this.master, this.berths, { engine, lengths, rounds, atOnce });
    return this.keepWhole(phase, dived, this.work.firstBarTries);
  }

  /** Makes bars whole for layouts, and keeps the plan: by these bars, or where the pile does not yield the layouts by cutting anew. */
  private keepWhole(phase: string, relaxed: Dived, tries: number): Found | null {
    const keep = (rounded: boolean) => {
      const { dived, cutting } = this.improver.whole(relaxed, tries, rounded);
      return this.keep(phase, dived, cutting);
    };
    return (!this.passes.prices && tries === 0 && keep(true)) || keep(false);
  }

  /** Makes the plan of fillings and keeps it, cut anew where no cutting is given; tells it where it is the best within the stops allowed. */
  private keep(phase: string, relaxed: Dived, whole: Cutting | null = null): Found | null {
    const found = this.made(relaxed, whole);
    if (found) this.take(phase, found);
    else this.tell(phase);
    return found;
  }

  private made(relaxed: Dived, whole: Cutting | null): Found | null {
    const { problem, making, berths } = this;
    const fillings = whole ? relaxed.fillings : withinPile(problem, making, berths, relaxed.fillings);
    const cutting = whole ? jointFillings(problem, fillings, whole, making) : cutFillings(problem, fillings, making);
    const plan = makePlan(problem, fillings, cutting, making);
    return plan && { ...relaxed, plan, fillings, score: scoreOf(problem, plan, fillings) };
  }

  private take(phase: string, found: Found): void {
    this.finds.add(found);
    if (this.into) this.into.take(phase, { ...found, score: scoreOf(this.into.problem, found.plan, found.fillings) });
    else this.tell(phase, this.finds.bestAble() === found ? this.finish(found.plan) : undefined);
  }

  /** Tells the choice of stops that another search has. */
  choiceOf(other: Search): void {
    this.finds.choices = other.finds;
  }

  /** The best of another search cut anew by the rules of this one. */
  takeBestOf(other: Search): void {
    const best = other.finds.bestAble();
    if (best) this.patience.while(() => this.keep('better', { ...best, fillings: [...best.fillings] }));
  }

  private tell(phase?: string, plan?: Plan): void {
    if (this.into) this.into.tell(phase, plan);
    else this.teller.tell(phase, plan);
  }

  dispose(): void {
    this.master.dispose();
  }
}
