/** The version of kentledge: as in package.json and in every plan's `engine`. */
export const VERSION = '0.1.0';

/** True of a version, like 0.2.0, after our own; false of anything that is no version. */
export function isNewerVersion(version: unknown): boolean {
  const parts = /^(\d+)\.(\d+)\.(\d+)/.exec(String(version));
  if (!parts) return false;
  const own = VERSION.split('.').map(Number);
  const order = own.map((part, i) => Number(parts[i + 1]) - part).find((difference) => difference !== 0);
  return order !== undefined && order > 0;
}
