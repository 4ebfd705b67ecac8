/** An event of the site, by its days. */
type Spanned = { readonly id: string; readonly first_day: string; readonly last_day: string };

/** Days that may lie between an event and one that still belongs to it: a weekend (common practice, no source). */
export const ADJOINS = 3;

const MS_A_DAY = 86_400_000;

const daysApart = (from: string, to: string) => (Date.parse(to) - Date.parse(from)) / MS_A_DAY;

/** Days between a day and the nearest of an event; 0 within it. */
export const daysFrom = (day: string, { first_day, last_day }: Omit<Spanned, 'id'>): number =>
  day < first_day ? daysApart(day, first_day) : day > last_day ? daysApart(last_day, day) : 0;

/**
 * The events each day belongs to: those that cover it, else the nearest it
 * adjoins, which is then taken as widened by it. Days of no event are left out.
 *
 * @param days  in order
 */
export function eventsOfDays(
  days: readonly string[],
  events: Iterable<Spanned>,
): ReadonlyMap<string, readonly string[]> {
  const spans = [...events].map(({ id, first_day, last_day }) => ({ id, first_day, last_day }));
  const found = new Map<string, readonly string[]>();
  let open = days.filter((day) => {
    const covering = spans.filter((event) => daysFrom(day, event) === 0);
    if (covering.length > 0)
      found.set(
        day,
        covering.map(({ id }) => id),
      );
    return covering.length === 0;
  });
  for (;;) {
    const left: string[] = [];
    for (const day of open) {
      const least = Math.min(...spans.map((event) => daysFrom(day, event)));
      const nearest = spans.filter((event) => daysFrom(day, event) === least);
      const [only] = nearest;
      if (only === undefined || least > ADJOINS) {
        left.push(day);
        continue;
      }
      found.set(
        day,
        nearest.map(({ id }) => id),
      );
      if (nearest.length > 1) continue;
      if (day < only.first_day) only.first_day = day;
      else only.last_day = day;
    }
    if (left.length === open.length) return found;
    open = left;
  }
}
