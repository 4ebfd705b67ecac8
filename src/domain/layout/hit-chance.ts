import { azimuth, type Azimuth } from '../units';
import { areaPerPoint, stepsOf, type Repeat } from './lattice';

/** What is looked for: an ellipse on the ground, anywhere with equal chance. */
export type Target = {
  /** Half its long axis, in the grid's unit: the radius of a circle. */
  readonly radius: number;
  /** Short axis over long: 1 for a circle, near 0 for a streak. */
  readonly shape: number;
  /** Azimuth its long axis lies along; null where it may lie any way with equal chance. */
  readonly lies: Azimuth | null;
};

/**
 * What the chance takes for granted, to be shown with it. (Assumptions of R. O.
 * Gilbert, 1987, Statistical methods for environmental pollution monitoring,
 * ch. 10; recognition at a struck point, PNNL 2007, as quoted.)
 */
export const HIT_CHANCE_ASSUMES = [
  'A target that is struck is recognised: a false non-detect lowers the chance.',
  'The target stands upright through the depth sampled, with a sharp edge.',
  'The grid goes on past the target on every side: the edge of the site is ignored.',
] as const;

/**
 * Chance that at least one node of a regular grid with a random start falls in
 * a target: exact for a target lying one way, to 1e-5 where it may lie any way.
 *
 * A stretch of the ground that makes the ellipse a circle leaves the grid a
 * grid. A circle is hit when its middle is within its radius of the nearest
 * node, so the chance is the part of a node's own ground (the places nearer to
 * it than to any other node, a hexagon of three pairs of sides) that lies
 * within one radius of it.
 *
 * @param rows  azimuth of the rows, which matters where the target lies one way
 * @returns null where spacing, radius or shape is not above 0, or shape above 1
 */
export function hitChance(repeat: Repeat, rows: Azimuth, target: Target): number | null {
  const { radius, shape, lies } = target;
  if (!(areaPerPoint(repeat) > 0 && repeat.spacing > 0)) return null;
  if (!(radius > 0 && shape > 0 && shape <= 1 && Number.isFinite(rows - (lies ?? 0)))) return null;
  if (lies !== null || shape === 1) return chanceLying(repeat, target, rows - (lies ?? 0));

  let sum = 0;
  for (let i = 0; i < ANGLES; i++)
    sum += chanceLying(repeat, target, ((i + 0.5) * TURN[repeat.pattern]) / ANGLES);
  return sum / ANGLES;
}

/** The grid looks the same after a part of a turn and in a mirror: this part, in degrees, is enough. */
const TURN = { square: 45, triangular: 30, rectangular: 90 } as const;

/** Angles averaged over, each in the middle of its share. */
const ANGLES = 360;

function chanceLying(repeat: Repeat, target: Target, turned: number): number {
  const [a, b] = stepsAsCircle(repeat, target, turned);
  return shareWithinOne(a, b);
}

/**
 * The steps of the grid on the ground stretched until the target is a circle of
 * radius 1: its long axis north, its short axis east.
 *
 * @param turned  rows of the grid, clockwise from the long axis, in degrees
 */
function stepsAsCircle(
  repeat: Repeat,
  { radius, shape }: Pick<Target, 'radius' | 'shape'>,
  turned: number,
): readonly [Step, Step] {
  const [[ux, uy], [vx, vy]] = stepsOf({ ...repeat, rows: azimuth(turned) });
  return shortestSteps([ux / (radius * shape), uy / radius], [vx / (radius * shape), vy / radius]);
}

type Step = readonly [number, number];

const dot = (a: Step, b: Step) => a[0] * b[0] + a[1] * b[1];

/** Share of all ground within 1 of a node of the lattice whose shortest steps are a and b. */
function shareWithinOne(a: Step, b: Step): number {
  const c: Step = [b[0] - a[0], b[1] - a[1]];
  const cell = Math.abs(a[0] * b[1] - a[1] * b[0]);
  // The sides of a node's own ground stand halfway to six neighbours: ±a, ±b, ±c. Half a side is
  // half its step times the cotangent of the angle that the triangle 0, a, b has across from it.
  const sides: readonly (readonly [step: Step, cotangent: number])[] = [
    [a, dot(b, c) / cell],
    [b, -dot(a, c) / cell],
    [c, dot(a, b) / cell],
  ];
  let covered = 0;
  for (const [step, cotangent] of sides) {
    const away = Math.hypot(...step) / 2;
    covered += 4 * withinOne(away, away * Math.max(0, cotangent));
  }
  return Math.min(1, covered / cell);
}

/**
 * The same lattice by its two shortest steps, at most a right angle and at
 * least 60° apart. (Lagrange's reduction of a form in two unknowns, 1773.)
 */
function shortestSteps(u: Step, v: Step): readonly [Step, Step] {
  let [short, long] = dot(u, u) <= dot(v, v) ? [u, v] : [v, u];
  for (;;) {
    const times = Math.round(dot(short, long) / dot(short, short));
    const rest: Step = [long[0] - times * short[0], long[1] - times * short[1]];
    if (dot(rest, rest) >= dot(short, short) * (1 - 1e-12)) {
      long = rest;
      break;
    }
    [short, long] = [rest, short];
  }
  return dot(short, long) < 0 ? [short, [-long[0], -long[1]]] : [short, long];
}

/**
 * Ground within 1 of the tip of a right triangle, whose one leg runs `away` from
 * the tip and whose other is `half`, at the end of the first.
 */
function withinOne(away: number, half: number): number {
  const angle = Math.atan2(half, away);
  if (away >= 1) return angle / 2;
  const reached = Math.sqrt(1 - away * away);
  if (reached >= half) return (away * half) / 2;
  return (away * reached) / 2 + (angle - Math.acos(away)) / 2;
}

/**
 * The widest spacing of a grid of one pattern that still hits the target with a
 * wanted chance.
 *
 * @param ratio  rows apart over spacing, for a rectangular grid
 * @returns null where the chance is not between 0 and 1, or the target is none
 */
export function spacingForChance(
  pattern: Repeat['pattern'],
  rows: Azimuth,
  target: Target,
  chance: number,
  ratio = 1,
): Repeat | null {
  if (!(chance > 0 && chance <= 1 && ratio > 0)) return null;
  const repeatOf = (spacing: number): Repeat =>
    pattern === 'rectangular'
      ? { pattern, spacing, between: ratio * spacing }
      : { pattern, spacing };
  const at = (spacing: number) => hitChance(repeatOf(spacing), rows, target);
  if (at(target.radius) === null) return null;
  if (chance === 1) {
    const missed = largestMissed(repeatOf(1), rows, target);
    return missed === null ? null : repeatOf(target.radius / missed);
  }

  // The chance never rises with the spacing: find one too wide and one close enough.
  const enough = (spacing: number) => (at(spacing) ?? 0) >= chance;
  let [close, wide] = [target.radius * target.shape, target.radius];
  while (!enough(close)) close /= 2;
  while (enough(wide)) wide *= 2;
  for (let halving = 0; halving < 60; halving++) {
    const middle = (close + wide) / 2;
    if (enough(middle)) close = middle;
    else wide = middle;
  }
  return repeatOf(close);
}

/**
 * Radius of the largest target, of one shape and lie, that a grid can miss; any
 * larger is hit for certain. It hides with its middle at a corner of a node's
 * own ground, as far from three nodes as can be.
 *
 * @returns null where there is no such grid or target
 */
export function largestMissed(
  repeat: Repeat,
  rows: Azimuth,
  { shape, lies }: Pick<Target, 'shape' | 'lies'>,
): number | null {
  if (hitChance(repeat, rows, { radius: 1, shape, lies }) === null) return null;
  const missed = (turned: number) => {
    const [a, b] = stepsAsCircle(repeat, { radius: 1, shape }, turned);
    const c = Math.hypot(b[0] - a[0], b[1] - a[1]);
    return (Math.hypot(...a) * Math.hypot(...b) * c) / (2 * Math.abs(a[0] * b[1] - a[1] * b[0]));
  };
  if (lies !== null || shape === 1) return missed(rows - (lies ?? 0));
  let most = 0;
  for (let i = 0; i <= ANGLES; i++)
    most = Math.max(most, missed((i * TURN[repeat.pattern]) / ANGLES));
  return most;
}
