/** `kentledge serve`: the web application on this machine. */
import { type Command, InvalidArgumentError } from 'commander';
import { EXIT } from '../exit.ts';
import { logTo } from '../logTo.ts';
import { usualDataFolder } from '../place.ts';
import type { ServeOptions, Serving } from '../serve.ts';

export function addServeCommand(program: Command): void {
  program
    .command('serve')
    .description('Serve the web application: jobs, plans and papers in a browser.')
    .option('--port <port>', 'the port to listen on', readPort, 8017)
    .option('--host <host>', 'the address to listen on', '127.0.0.1')
    .option('--data <dir>', 'where jobs and plans are kept', usualDataFolder())
    .action(async (options: ServeOptions) => {
      // Heard from the first moment on: a signal during the start ends what was started.
      const signal = firstSignal();
      const serving = await begin(options);
      if (!serving) return;
      await signal;
      await serving.close();
    });
}

async function begin(options: ServeOptions): Promise<Serving | null> {
  try {
    // Loaded only here: the other commands need neither server nor database.
    const { serve } = await import('../serve.ts');
    const serving = await serve(options);
    const addresses = serving.addresses.join(' and ');
    logTo(1).write(`kentledge is at ${addresses} with its data in ${options.data}. End it with Ctrl-C.\n`);
    return serving;
  } catch (error) {
    const told = await refusal(error, options);
    if (told === null) throw error;
    process.stderr.write(`${told}\n`);
    process.exitCode = EXIT.refused;
    return null;
  }
}

async function refusal(error: unknown, { port, host }: ServeOptions): Promise<string | null> {
  const { FolderRefused } = await import('../store/database.ts');
  if (error instanceof FolderRefused) return error.message;
  const { code } = error as NodeJS.ErrnoException;
  if (code === 'EADDRINUSE') return `Port ${port} is taken. Give another one with --port.`;
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND')
    return `This machine has no address ${host}. Give one of its own with --host.`;
  if (code === 'EACCES' && (error as NodeJS.ErrnoException).syscall === 'listen')
    return `Port ${port} needs more rights. Give one above 1023 with --port.`;
  return null;
}

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Resolves at the first signal to end. None is heard after it: a second one, of whatever kind, ends the process at once. */
function firstSignal(): Promise<void> {
  return new Promise((resolve) => {
    const hear = (): void => {
      for (const signal of SIGNALS) process.off(signal, hear);
      resolve();
    };
    for (const signal of SIGNALS) process.on(signal, hear);
  });
}

function readPort(text: string): number {
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65_535) throw new InvalidArgumentError('Give a port from 0 to 65535.');
  return port;
}
