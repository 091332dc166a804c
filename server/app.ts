/** Builds the Express app from what it is given: no port, no file of its own. `serve.ts` listens with it; tests need not. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import compression from 'compression';
import express, { type Express, type NextFunction, type Request, type Response } from 'express';
import type { Job } from '../src/job/job.ts';
import type { Plan } from '../src/plan/plan.ts';
import { framesOf } from './frames.ts';
import { keepLatest } from './keepLatest.ts';
import { packageFolder } from './place.ts';
import type { Planning } from './planning/planning.ts';
import { PROBLEMS, Problem, problemOf } from './problem.ts';
import { afloatRoutes } from './routes/afloat.ts';
import { barRoutes } from './routes/bars.ts';
import { bundleRoutes } from './routes/bundle.ts';
import { fileRoutes } from './routes/files.ts';
import { firstCutsRoutes } from './routes/firstCuts.ts';
import { helpRoutes } from './routes/help.ts';
import { holdRoutes } from './routes/hold.ts';
import { jobRoutes } from './routes/job.ts';
import { jobsRoutes } from './routes/jobs.ts';
import { liftRoutes } from './routes/lift.ts';
import { movesRoutes } from './routes/moves.ts';
import { paperRoutes } from './routes/papers.ts';
import { planRoutes } from './routes/plan.ts';
import { planningRoutes } from './routes/planning.ts';
import { readingsRoutes } from './routes/readings.ts';
import { stowedRoutes } from './routes/stowed.ts';
import { surveyRoutes } from './routes/survey.ts';
import { takenRoutes } from './routes/taken.ts';
import { weighedRoutes } from './routes/weighed.ts';
import { workLeftRoutes } from './routes/workLeft.ts';
import { checkHost, checkOrigin, formToken, pagePolicy } from './security.ts';
import { compileForm } from './show/formMarkup.ts';
import { overLines } from './show/weighed.ts';
import type { Store } from './store/store.ts';
import { VERSION } from './version.ts';
import { wordsIn } from './words.ts';

/** One line of the log: what was asked for by its route, never by what is in a job. */
export interface LogLine {
  level: 'info' | 'error';
  what: string;
  [detail: string]: string | number | undefined;
}

export interface AppParts {
  store: Store;
  planning: Planning;
  clock: () => Date;
  log: (line: LogLine) => void;
  /** The host names that are answered; see `hostNames`. */
  hosts: ReadonlySet<string>;
}

/** What every route is handed. */
export interface Context extends AppParts {
  token: string;
  /** Plans read lately, with their jobs, by serial, what holds them and how often bundles of them were moved. */
  plansRead: (key: string, make: () => ReadPlan) => ReadPlan;
}

interface ReadPlan {
  plan: Plan;
  job: Job;
}

/** Plans kept at hand. */
const PLANS_READ = 16;

export function buildApp(parts: AppParts): Express {
  const context: Context = {
    ...parts,
    token: formToken(parts.store.settings),
    plansRead: keepLatest<string, ReadPlan>(PLANS_READ),
  };
  const folder = packageFolder();
  const app = express();
  app.disable('x-powered-by');
  app.set('view engine', 'ejs');
  app.set('views', join(folder, 'views'));
  app.set('view cache', true);
  Object.assign(app.locals, { words: wordsIn('metric'), token: context.token, version: VERSION });
  Object.assign(app.locals, { overLines, ...compileForm() });

  app.use(logRequests(context));
  app.use((request, response, next) => {
    response.locals.isAsked = request.method === 'GET';
    next();
  });
  app.use(pagePolicy());
  app.use(checkHost(context.hosts));
  app.use(checkOrigin);
  app.use(compression({ filter: (request, response) => !isStream(response) && compression.filter(request, response) }));
  app.use('/assets', express.static(join(folder, 'views', 'assets'), { index: false, extensions: [] }));
  const compiled = join(folder, 'dist', 'browser');
  if (existsSync(compiled)) app.use('/assets', express.static(compiled, { index: false }));

  app.use(jobsRoutes(context));
  app.use(planningRoutes(context));
  app.use(fileRoutes(context));
  app.use(barRoutes(context));
  app.use(jobRoutes(context));
  app.use(planRoutes(context));
  app.use(paperRoutes(context));
  app.use(weighedRoutes(context));
  app.use(stowedRoutes(context));
  app.use(surveyRoutes(context));
  app.use(takenRoutes(context));
  app.use(movesRoutes(context));
  app.use(bundleRoutes(context));
  app.use(afloatRoutes(context));
  app.use(readingsRoutes(context));
  app.use(liftRoutes(context));
  app.use(holdRoutes(context));
  app.use(firstCutsRoutes(context));
  app.use(workLeftRoutes(context));
  app.use(helpRoutes());
  app.use(() => {
    throw new Problem('no-such-page');
  });
  app.use((error: unknown, request: Request, response: Response, next: NextFunction) => {
    tellProblem(context, error, request, response, next);
  });
  return app;
}

function isStream(response: Response): boolean {
  return String(response.getHeader('Content-Type')).startsWith('text/event-stream');
}

/** The one place where anything thrown becomes an answer. */
function tellProblem({ log }: Context, error: unknown, request: Request, response: Response, next: NextFunction): void {
  // Whoever asked is gone before all was sent: nobody is left to tell, and nothing is wrong.
  if (error instanceof Error && 'code' in error && error.code === 'ERR_STREAM_PREMATURE_CLOSE') return;
  const problem = problemOf(error);
  if (problem.code === 'defect' || problem.code === 'not-written') {
    const told = framesOf(error instanceof Error ? (error.stack ?? error.name) : 'thrown without an error');
    log({ level: 'error', what: problem.code, route: routeOf(request), told });
  }
  if (response.headersSent) {
    next(error);
    return;
  }
  const { status, title, next: remedy } = PROBLEMS[problem.code];
  // The route may have said already that a paper or a file comes: this is a page.
  response.removeHeader('Content-Disposition');
  response.status(status).type('html').render('problem', { title, remedy, detail: problem.detail });
}

function logRequests({ log }: Context) {
  return (request: Request, response: Response, next: NextFunction): void => {
    const begun = performance.now();
    response.on('close', () => {
      const ms = Math.round(performance.now() - begun);
      log({
        level: 'info',
        what: 'request',
        method: request.method,
        route: routeOf(request),
        status: response.statusCode,
        ms,
      });
    });
    next();
  };
}

/** The pattern of the route, without what the user put into the address. */
function routeOf(request: Request): string {
  return typeof request.route?.path === 'string'
    ? request.route.path
    : request.path.startsWith('/assets/')
      ? '/assets'
      : 'none';
}
