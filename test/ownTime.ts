/** Time that a computation takes of this process's own: it does not grow where others use the machine. */

/** Milliseconds of CPU that the work takes, its garbage collection with them. */
export async function ownTime(work: () => unknown): Promise<number> {
  const begun = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1000;
}
