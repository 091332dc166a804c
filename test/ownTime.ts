/** Time that a computation takes of this process's own: it does not grow where others use the machine. */

/** Milliseconds of CPU that the work takes, its garbage collection with them. */
export async function ownTime(work: () => unknown): Promise<number> {
  const begun = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1000;
}

/** Own time of the yardstick, ms, on the machine where limits in milliseconds were measured. */
const YARDSTICK = 32;
const TURNS = 8;

/** How many times as slow as that machine this one is at the moment, by plain work with words; at least 1. */
export async function slowness(): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < TURNS; turn++) {
    const work = () =>
      Array.from({ length: 60_000 }, (_, i) => `${(i * 7919) % 60_013}`)
        .sort()
        .join();
    least = Math.min(least, await ownTime(work));
  }
  return Math.max(1, least / YARDSTICK);
}
