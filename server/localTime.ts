/** Times as they are written down by hand: by the clock and the day of the place where the server stands. */

/**
 * An ISO time with the offset of that place: `2027-03-02T08:05:00.000+13:00`, so that its first ten letters are the day
 * there. `offset` is in minutes, east positive.
 */
export function localTime(at: Date, offset = -at.getTimezoneOffset()): string {
  const local = new Date(at.getTime() + offset * 60_000).toISOString().slice(0, -1);
  if (offset === 0) return `${local}Z`;
  const [hours, minutes] = [Math.floor(Math.abs(offset) / 60), Math.abs(offset) % 60].map((part) =>
    String(part).padStart(2, '0'),
  );
  return `${local}${offset < 0 ? '-' : '+'}${hours}:${minutes}`;
}
