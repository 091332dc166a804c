/** `npm run bench -- NAME …`: each bench is one file here whose `run` takes what stands after its name. */

interface Bench {
  run(args: string[]): Promise<void>;
}

const BENCHES: Record<string, () => Promise<Bench>> = {
  cut: () => import('./cut.ts'),
  pages: () => import('./pages.ts'),
  papers: () => import('./papers.ts'),
  picture: () => import('./picture.ts'),
  plan: () => import('./plan.ts'),
  random: () => import('./random.ts'),
  serve: () => import('./serve.ts'),
};

const [name = '', ...args] = process.argv.slice(2);
const load = BENCHES[name];
if (load) {
  await (await load()).run(args);
} else {
  console.error(`Name a bench: ${Object.keys(BENCHES).join(', ')}.`);
  process.exitCode = 2;
}
