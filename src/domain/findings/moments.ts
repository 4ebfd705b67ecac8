/** Times local to the site, as the tables have them: "2026-05-31T14:05", or a day alone. */
const HOUR = 3_600_000; // ms

/** Hours from one time to another, to the minute where both are known to it, else in whole days. */
export function hoursBetween(from: string, to: string): number {
  const byDays = !from.includes('T') || !to.includes('T');
  const at = (time: string) => Date.parse(byDays ? `${time.slice(0, 10)}T00:00Z` : `${time}Z`);
  return (at(to) - at(from)) / HOUR;
}

/** Whether a time is certainly before another: days alone are compared as days. */
export const isBefore = (one: string, other: string) => hoursBetween(one, other) > 0;

export const dayOf = (time: string) => time.slice(0, 10);
