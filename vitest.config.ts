import { defineConfig } from 'vitest/config';

// Left to itself vitest keeps one of two cores idle.
export default defineConfig({ test: { include: ['test/**/*.test.ts'], testTimeout: 30_000, maxWorkers: 2 } });
