import type { Place } from '../scene/scene';

/** A point as the keyboard and a screen reader meet it. */
export type MapPoint = {
  /** The `who` of its items in the scene. */
  readonly id: string;
  readonly name: string;
  /** What it is in a few words: "monitoring well, installed, head 94.16 ft". */
  readonly says: string;
  readonly at: Place;
};

const plain = (text: string) => text.toLowerCase().replaceAll(/[^a-z0-9]/g, '');

/**
 * The next point from one on, round the list, whose name begins with what was
 * typed, dashes and spaces aside; else one that has it anywhere, so that "12"
 * finds DP-12. Null when none does.
 */
export function jumpTo(points: readonly MapPoint[], typed: string, from: number): number | null {
  const wanted = plain(typed);
  if (wanted === '') return null;
  const start = typed.length > 1 ? from : from + 1; // a longer word goes on with the point at hand
  const round = points.map((_, i) => (start + i) % points.length);
  const names = points.map(({ name }) => plain(name));
  return (
    round.find((i) => names[i]?.startsWith(wanted)) ??
    round.find((i) => names[i]?.includes(wanted)) ??
    null
  );
}

/**
 * Puts points in the order of their names, numbers by value: DP-2 before DP-10.
 * The order is kept for as long as the names stay: thousands of points whose
 * heads change are not sorted anew.
 */
export function orderByName(): (points: readonly MapPoint[]) => MapPoint[] {
  const { compare } = new Intl.Collator('en', { numeric: true });
  let names: readonly string[] = [];
  let order: readonly number[] = [];
  return (points) => {
    if (points.length !== names.length || points.some(({ name }, i) => name !== names[i])) {
      names = points.map(({ name }) => name);
      order = [...names.keys()].sort((a, b) => compare(names[a] ?? '', names[b] ?? ''));
    }
    return order.flatMap((i) => points[i] ?? []);
  };
}
