/** A real Chromium from the npm package, and the compiled scripts of the pages. */
import { execSync } from 'node:child_process';
import chromium from '@sparticuz/chromium';
import { type Browser, chromium as driver } from 'playwright-core';
import { packageFolder } from '../../server/place.ts';

/** Switches for a cloud's tiny machines, which make it fall over or less strict on a desk; and drawing by a GPU that is none. */
const UNWANTED = [
  '--single-process',
  '--no-zygote',
  '--disable-web-security',
  '--allow-running-insecure-content',
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist',
];

let shared: Promise<Browser> | undefined;

/** The one that all files of a process share; it ends with the process, and `closeWindows` ends what a file has open in it. */
export function openBrowser(): Promise<Browser> {
  shared ??= openOwnBrowser();
  return shared;
}

/** Closes all that is open in the browser; done after every file. */
export async function closeWindows(browser: Browser | undefined): Promise<void> {
  for (const context of browser?.contexts() ?? []) await context.close();
}

/** One for itself, to be closed; `switches` are added to those of the package. */
export async function openOwnBrowser(switches: string[] = []): Promise<Browser> {
  compileScripts();
  return driver.launch({
    executablePath: await chromium.executablePath(),
    args: [...chromium.args.filter((arg) => !UNWANTED.includes(arg)), '--disable-gpu', ...switches],
    headless: true,
  });
}

let compiled = false;

/** Puts the pages' scripts together as the build does, so that what is tested is what stands in `views/assets`; once in a process. */
function compileScripts(): void {
  if (compiled) return;
  compiled = true;
  execSync('npm run -s build:pages', { cwd: packageFolder() });
}
