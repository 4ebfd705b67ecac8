/** The clock on the site, as the tables write it: 2026-05-31T14:05:20. */
export function localSecond(): string {
  const now = new Date();
  const minutes = now.getTime() - now.getTimezoneOffset() * 60_000;
  return new Date(minutes).toISOString().slice(0, 19);
}

export const today = () => localSecond().slice(0, 10);
