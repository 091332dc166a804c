import { defineConfig } from 'vitest/config';
import { LongestFirst } from './test/order.ts';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    // Left to itself vitest keeps one of two cores idle.
    maxWorkers: 2,
    // A process of its own for every file loads all modules and warms up the planner anew: a quarter of all the work.
    // No module of ours keeps a state that a test could leave behind for the next file.
    isolate: false,
    // As `server/compileLater.ts` has it for the command: of all the work of the tests a fifth went into machine code.
    execArgv: ['--interrupt-budget=300000', '--max-inlined-bytecode-size-cumulative=60'],
    sequence: { sequencer: LongestFirst },
    // For what never ends, not for what is slow: the machine may be shared.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    expect: { poll: { timeout: 20_000 } },
  },
});
