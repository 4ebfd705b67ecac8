import type { Box } from './place-labels';
import { pointSquares } from './point-squares';

/** px, right and down. */
export type Spot = readonly [x: number, y: number];

/** A box that wants to stand beside its point. */
export type BoxRequest = {
  readonly who: string;
  readonly at: Spot;
  /** Width and height, the fullest form first; a shorter one is used where there is no room for it. */
  readonly sizes: readonly Spot[];
  /** Where a person put its upper left corner, px from its point. It stays there. */
  readonly held?: Spot | undefined;
};

export type PlacedBox = {
  readonly who: string;
  readonly box: Box;
  /** Which of its sizes it has. */
  readonly form: number;
  /** From the edge of the point to the nearest place on the box. */
  readonly leader: readonly [from: Spot, to: Spot];
};

export type BoxLayout = {
  /** In the order they were asked for. */
  readonly placed: readonly PlacedBox[];
  /** Those that found no room, in the order they were asked for. */
  readonly left: readonly string[];
};

/** Room kept free around a point, its mark included, px. */
export const POINT_ROOM = 11;
/** Between boxes, and between a box and a leader, px. */
const APART = 3;
/** From a point to its box, px: short first. */
const REACHES = [13, 22, 36, 56, 84, 120, 165, 220, 290, 370, 460];

/** How hard room is looked for. */
export type Effort = {
  /** Ways from the point that are tried. */
  readonly directions: number;
  /** From a point to its box, px: short first. */
  readonly reaches: readonly number[];
  /** Placements compared at most while room is made for boxes that found none. */
  readonly patience: number;
  /** Candidates of one box for which others are asked to move. */
  readonly mostAsked: number;
  /** Others asked to move aside for one candidate, at most. */
  readonly mostMoved: number;
};

/** For a map that is moved about: about a tenth of a second. */
const FOR_A_SCREEN: Effort = {
  directions: 24,
  reaches: REACHES,
  patience: 1_000_000,
  mostAsked: 60,
  mostMoved: 2,
};

/** For a sheet that is printed once: a second or two. */
const FOR_A_SHEET: Effort = {
  directions: 48,
  reaches: REACHES.flatMap((reach, i) => [reach, (reach + (REACHES[i + 1] ?? 560)) / 2]),
  patience: 2_000_000,
  mostAsked: 150,
  mostMoved: 3,
};
/** Orders tried on a sheet. */
const ROUNDS = 6;

type Candidate = PlacedBox & { readonly cost: number };

const meet = (a: Box, b: Box, gap: number) =>
  a.left < b.right + gap &&
  b.left < a.right + gap &&
  a.top < b.bottom + gap &&
  b.top < a.bottom + gap;

const clamped = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));

const side = ([ax, ay]: Spot, [bx, by]: Spot, [cx, cy]: Spot) =>
  (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);

/** Whether two segments have a place in common; touching counts. */
function segmentsMeet([a, b]: PlacedBox['leader'], [c, d]: PlacedBox['leader']): boolean {
  if (
    Math.max(a[0], b[0]) < Math.min(c[0], d[0]) ||
    Math.max(c[0], d[0]) < Math.min(a[0], b[0]) ||
    Math.max(a[1], b[1]) < Math.min(c[1], d[1]) ||
    Math.max(c[1], d[1]) < Math.min(a[1], b[1])
  )
    return false;
  return side(a, b, c) * side(a, b, d) <= 0 && side(c, d, a) * side(c, d, b) <= 0;
}

/** Whether a segment passes through a box grown by a gap: the slab test. */
function segmentMeetsBox([a, b]: PlacedBox['leader'], box: Box, gap: number): boolean {
  let [from, to] = [0, 1];
  const slabs = [
    [a[0], b[0] - a[0], box.left - gap, box.right + gap],
    [a[1], b[1] - a[1], box.top - gap, box.bottom + gap],
  ] as const;
  for (const [start, along, low, high] of slabs) {
    if (along === 0) {
      if (start < low || start > high) return false;
      continue;
    }
    const [one, other] = [(low - start) / along, (high - start) / along];
    from = Math.max(from, Math.min(one, other));
    to = Math.min(to, Math.max(one, other));
    if (from > to) return false;
  }
  return true;
}

function distanceTo([px, py]: Spot, [[ax, ay], [bx, by]]: PlacedBox['leader']): number {
  const [dx, dy] = [bx - ax, by - ay];
  const length = dx * dx + dy * dy;
  const t = length === 0 ? 0 : clamped(((px - ax) * dx + (py - ay) * dy) / length, 0, 1);
  return Math.hypot(px - ax - t * dx, py - ay - t * dy);
}

const coversPoint = (box: Box, [x, y]: Spot) =>
  Math.hypot(x - clamped(x, box.left, box.right), y - clamped(y, box.top, box.bottom)) < POINT_ROOM;

const inTheWay = (a: PlacedBox, b: PlacedBox) =>
  meet(a.box, b.box, APART) ||
  segmentMeetsBox(a.leader, b.box, APART) ||
  segmentMeetsBox(b.leader, a.box, APART) ||
  segmentsMeet(a.leader, b.leader);

function candidateAt(
  { who, at, sizes }: BoxRequest,
  form: number,
  left: number,
  top: number,
): Candidate {
  const [width, height] = sizes[form] ?? [0, 0];
  const box = { left, top, right: left + width, bottom: top + height };
  const to: Spot = [clamped(at[0], box.left, box.right), clamped(at[1], box.top, box.bottom)];
  const cost = Math.hypot(to[0] - at[0], to[1] - at[1]);
  const share = cost === 0 ? 0 : Math.min(1, (POINT_ROOM - 3) / cost);
  const from: Spot = [at[0] + (to[0] - at[0]) * share, at[1] + (to[1] - at[1]) * share];
  return { who, box, form, leader: [from, to], cost };
}

const around = ([a, b]: PlacedBox['leader']): Box => ({
  left: Math.min(a[0], b[0]),
  top: Math.min(a[1], b[1]),
  right: Math.max(a[0], b[0]),
  bottom: Math.max(a[1], b[1]),
});

/** Everywhere a box may stand as far as window and points go, the nearest first. */
function candidatesOf(
  request: BoxRequest,
  form: number,
  somePoint: ReturnType<typeof pointSquares>,
  window: Box,
  { reaches, directions }: Effort,
): Candidate[] {
  const { at, sizes } = request;
  const [width, height] = sizes[form] ?? [0, 0];
  const isOther = ([x, y]: Spot) => Math.hypot(x - at[0], y - at[1]) > 0.5;
  const found: Candidate[] = [];
  for (const reach of reaches)
    for (let i = 0; i < directions; i++) {
      const angle = (2 * Math.PI * i) / directions;
      const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
      const left = at[0] + dx * reach + (dx - 1) * (width / 2);
      const top = at[1] + dy * reach + (dy - 1) * (height / 2);
      if (left < window.left || top < window.top) continue;
      if (left + width > window.right || top + height > window.bottom) continue;
      const candidate = candidateAt(request, form, left, top);
      const { box, leader } = candidate;
      if (somePoint(box, POINT_ROOM, (point) => coversPoint(box, point))) continue;
      const passes = (point: Spot) => isOther(point) && distanceTo(point, leader) < POINT_ROOM - 3;
      if (somePoint(around(leader), POINT_ROOM, passes)) continue;
      found.push(candidate);
    }
  return found.sort((a, b) => a.cost - b.cost);
}

/**
 * Room for boxes beside their points. No box covers a point, another box or a
 * leader; no leader crosses another or passes over a point. The first asked for
 * are placed first; one that finds no room asks one or two placed before to move
 * aside, then tries its next shorter form, and at last is left out. Boxes put somewhere by hand stay there, and the others
 * keep clear of them.
 * @param points  every point of the map, px
 * @param window  what may be used, px
 */
export function layoutBoxes(
  requests: readonly BoxRequest[],
  points: readonly Spot[],
  window: Box,
  effort: Effort = FOR_A_SCREEN,
): BoxLayout {
  const somePoint = pointSquares(points);
  const placed = new Map<string, Candidate>();
  const fixed = new Set<string>();
  for (const request of requests) {
    if (!request.held) continue;
    const [x, y] = request.at;
    const [right, down] = request.held;
    placed.set(request.who, candidateAt(request, 0, x + right, y + down));
    fixed.add(request.who);
  }
  const byForm = new Map<string, Candidate[][]>();
  const asking = new Map(requests.map((request) => [request.who, request]));
  const candidates = (who: string, form: number): readonly Candidate[] => {
    const request = asking.get(who);
    if (!request) return [];
    const made = byForm.get(who) ?? [];
    byForm.set(who, made);
    return (made[form] ??= candidatesOf(request, form, somePoint, window, effort));
  };
  let compared = 0;
  const blockers = (candidate: Candidate, most: number): string[] | null => {
    const found: string[] = [];
    for (const [who, other] of placed) {
      if (who === candidate.who) continue;
      compared++;
      if (!inTheWay(candidate, other)) continue;
      if (found.length === most || fixed.has(who)) return null;
      found.push(who);
    }
    return found;
  };
  const place = (who: string, form: number): boolean => {
    const free = candidates(who, form).find((one) => blockers(one, 0) !== null);
    if (free) placed.set(who, free);
    return free !== undefined;
  };
  const makeRoom = (who: string, form: number): boolean => {
    let asked = 0;
    for (const candidate of candidates(who, form)) {
      if (asked >= effort.mostAsked || compared > effort.patience) return false;
      const inWay = blockers(candidate, effort.mostMoved);
      if (inWay === null) continue;
      asked++;
      const before = inWay.map((one) => [one, placed.get(one)] as const);
      for (const one of inWay) placed.delete(one);
      placed.set(who, candidate);
      if (before.every(([one, stood]) => stood && place(one, stood.form))) return true;
      placed.delete(who);
      for (const one of inWay) placed.delete(one);
      for (const [one, stood] of before) if (stood) placed.set(one, stood);
    }
    return false;
  };

  for (const { who, sizes } of requests)
    if (!fixed.has(who)) sizes.some((_, form) => place(who, form) || makeRoom(who, form));
  // Those moved aside may find a nearer place now.
  for (const { who } of requests) {
    const stood = placed.get(who);
    if (!stood || fixed.has(who)) continue;
    const nearer = candidates(who, stood.form).find(
      (one) => one.cost >= stood.cost || blockers(one, 0) !== null,
    );
    if (nearer && nearer.cost < stood.cost) placed.set(who, nearer);
  }
  return {
    placed: requests.flatMap(({ who }) => {
      const at = placed.get(who);
      return at ? [{ who, box: at.box, form: at.form, leader: at.leader }] : [];
    }),
    left: requests.flatMap(({ who }) => (placed.has(who) ? [] : [who])),
  };
}

/**
 * Boxes on a sheet, which has time: those that found no room, or only for a
 * shorter form, go first in another round, as long as some are left. The best
 * round stands; of equals the first, in which the worst came first.
 */
export function layoutSheetBoxes(
  requests: readonly BoxRequest[],
  points: readonly Spot[],
  window: Box,
): BoxLayout {
  let [order, best, least] = [requests, null as BoxLayout | null, Infinity];
  for (let round = 0; round < ROUNDS && least > 0; round++) {
    const layout = layoutBoxes(order, points, window, FOR_A_SHEET);
    const forms = new Map(layout.placed.map(({ who, form }) => [who, form]));
    const shortOf = ({ who, sizes }: BoxRequest) => forms.get(who) ?? sizes.length;
    const short = order.reduce((sum, request) => sum + shortOf(request), 0);
    if (short < least) [best, least] = [layout, short];
    order = order.toSorted((a, b) => Number(shortOf(b) > 0) - Number(shortOf(a) > 0));
  }
  const placed = new Map(best?.placed.map((one) => [one.who, one]));
  return {
    placed: requests.flatMap(({ who }) => placed.get(who) ?? []),
    left: requests.flatMap(({ who }) => (placed.has(who) ? [] : [who])),
  };
}
