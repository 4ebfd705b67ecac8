/** The clock on the site, as the tables write it: 2026-05-31T14:05:20. */
export function localSecond(now = new Date()): string {
  const minutes = now.getTime() - now.getTimezoneOffset() * 60_000;
  return new Date(minutes).toISOString().slice(0, 19);
}

export const today = () => localSecond().slice(0, 10);

/** A time for a person to read: "2026-05-31 14:05", by the clock on the site. */
export const minuteOf = (time: Date) => localSecond(time).slice(0, 16).replace('T', ' ');
