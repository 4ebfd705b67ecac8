import { metres, type Metres } from '../../units';

/** A head at a place: what a water-level surface is drawn through. */
export type SurfacePoint = {
  readonly id: string;
  /** East and north, in ground metres from wherever the caller counts. */
  readonly x: Metres;
  readonly y: Metres;
  readonly head: Metres;
  /** One standard deviation of the head: survey, reading and recovery together. Zero: none stated. */
  readonly sigma: Metres;
};

/** One place with one head, after points standing in the same place are made one. */
export type SurfacePlace = {
  /** In the order of the points given; more than one where points were merged. */
  readonly ids: readonly string[];
  readonly x: Metres;
  readonly y: Metres;
  readonly head: Metres;
  readonly sigma: Metres;
  /** Highest head less lowest among the points merged; 0 for a single point. */
  readonly apart: Metres;
  /** False where the heads merged differ by more than their stated errors allow (95 %). */
  readonly agree: boolean;
};

/** Closer than this is the same place: a hundredth of a foot and more, the rounding of a survey. */
export const SAME_PLACE = 0.005 as Metres;

/** Two-sided 95 % point of the standard normal distribution. */
const Z95 = 1.959964;

/**
 * Points in one place made one, so that a surface has one head there: the mean
 * weighted by 1/σ², with σ = 1/√Σ(1/σ²). For kriging with the errors stated
 * this changes nothing but the size of the system: two readings of one value
 * with independent errors carry the same information as their weighted mean.
 *
 * Where some errors are not stated (σ = 0) those heads are taken alone, evenly.
 * Heads that cannot both be right within their errors are still merged, and
 * marked: they are two zones, or a mistake, and a person must look.
 *
 * @param within  how close counts as the same place
 * @returns places in the order of their first points
 */
export function placesOf(points: readonly SurfacePoint[], within = SAME_PLACE): SurfacePlace[] {
  const groups: SurfacePoint[][] = [];
  const cells = new Map<string, SurfacePoint[][]>();
  const size = Math.max(within, Number.MIN_VALUE);
  const cellOf = (value: number) => Math.floor(value / size);

  for (const point of points) {
    const [column, row] = [cellOf(point.x), cellOf(point.y)];
    const near: SurfacePoint[][] = [];
    for (let i = -1; i <= 1; i++)
      for (let j = -1; j <= 1; j++) near.push(...(cells.get(`${column + i} ${row + j}`) ?? []));
    const group = near.find(
      ([first]) => first && Math.hypot(first.x - point.x, first.y - point.y) <= within,
    );
    if (group) {
      group.push(point);
      continue;
    }
    const alone = [point];
    groups.push(alone);
    const key = `${column} ${row}`;
    cells.set(key, [...(cells.get(key) ?? []), alone]);
  }
  return groups.map(merged);
}

function merged(points: readonly SurfacePoint[]): SurfacePlace {
  const exact = points.filter(({ sigma }) => !(sigma > 0));
  const used = exact.length > 0 ? exact : points;
  const weightOf = ({ sigma }: SurfacePoint) => (exact.length > 0 ? 1 : 1 / sigma ** 2);

  const weights = used.reduce((sum, point) => sum + weightOf(point), 0);
  const mean = (pick: (point: SurfacePoint) => number) => {
    const from = used[0] ? pick(used[0]) : 0;
    return metres(
      from + used.reduce((sum, p) => sum + weightOf(p) * (pick(p) - from), 0) / weights,
    );
  };
  const head = mean((p) => p.head);
  const heads = points.map((p) => p.head);
  return {
    ids: points.map(({ id }) => id),
    x: mean((p) => p.x),
    y: mean((p) => p.y),
    head,
    sigma: metres(exact.length > 0 ? 0 : 1 / Math.sqrt(weights)),
    apart: metres(Math.max(...heads) - Math.min(...heads)),
    agree: agreeing(points),
  };
}

/** Whether each pair differs by no more than chance: |h₁ − h₂| ≤ 1.96·√(σ₁² + σ₂²). */
const agreeing = (points: readonly SurfacePoint[]): boolean =>
  points.every((a, i) =>
    points
      .slice(i + 1)
      .every((b) => Math.abs(a.head - b.head) <= Z95 * Math.hypot(a.sigma, b.sigma) + 1e-12),
  );
