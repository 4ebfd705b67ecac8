import { groupBy } from '../group';

/** A value seen, or a limit it was not seen above. */
export type CensoredValue = { readonly value: number; readonly detected: boolean };

export type KaplanMeierRow = {
  readonly value: number;
  /** Estimated share of values below this one. */
  readonly below: number;
  /** Its standard error (Greenwood); null where the share is nothing. */
  readonly standardError: number | null;
};

export type KaplanMeier = {
  readonly n: number;
  readonly notDetected: number;
  /** One a distinct detected value, ascending. */
  readonly rows: readonly KaplanMeierRow[];
  /** Share of values below the lowest detection, about which nothing more is known. */
  readonly belowLowest: number;
  /** Where that share is put for the mean: the smallest limit at or under the lowest detection, else that detection. */
  readonly lowestPutAt: number;
  readonly mean: number;
  readonly variance: number;
};

/**
 * Distribution of values some of which are only known to be below a limit, with
 * nothing put in their place: the product-limit estimate of Kaplan & Meier
 * (1958) on the reversed scale (Helsel 2012, Statistics for Censored
 * Environmental Data, ch. 6). A non-detect "<L" lies below a detection equal to
 * L. Null where nothing was detected.
 */
export function kaplanMeier(values: readonly CensoredValue[]): KaplanMeier | null {
  const seen = values.filter(({ detected }) => detected).map(({ value }) => value);
  const limits = values.filter(({ detected }) => !detected).map(({ value }) => value);
  const counts = groupBy(seen, (value) => value);
  const distinct = [...counts.keys()].sort((a, b) => b - a);
  const lowest = distinct.at(-1);
  if (lowest === undefined) return null;

  const rows: KaplanMeierRow[] = [];
  let below = 1;
  let spread = 0;
  for (const value of distinct) {
    const atRisk = values.filter((other) => other.value <= value).length;
    const here = counts.get(value)?.length ?? 0;
    below *= (atRisk - here) / atRisk;
    spread += here / (atRisk * (atRisk - here));
    rows.push({ value, below, standardError: below > 0 ? below * Math.sqrt(spread) : null });
  }
  rows.reverse();

  const under = limits.filter((limit) => limit <= lowest);
  const lowestPutAt = under.length > 0 ? Math.min(...under) : lowest;
  const masses = [
    { at: lowestPutAt, mass: below },
    ...rows.map(({ value, below: under }, i) => ({
      at: value,
      mass: (rows[i + 1]?.below ?? 1) - under,
    })),
  ];
  const mean = masses.reduce((sum, { at, mass }) => sum + at * mass, 0);
  const variance = masses.reduce((sum, { at, mass }) => sum + (at - mean) ** 2 * mass, 0);
  return {
    n: values.length,
    notDetected: limits.length,
    rows,
    belowLowest: below,
    lowestPutAt,
    mean,
    variance,
  };
}

/** A hair, so that a share worked out as 0.8999… reaches 0.9. */
const HAIR = 1e-12;

/**
 * The smallest detected value that at least a share p of values lies at or
 * below; null where that lies below the lowest detection: then only "under it"
 * can be said.
 */
export function kaplanMeierQuantile({ rows, belowLowest }: KaplanMeier, p: number): number | null {
  if (p <= belowLowest) return null;
  const at = rows.find((_, i) => (rows[i + 1]?.below ?? 1) >= p - HAIR);
  return at?.value ?? null;
}
