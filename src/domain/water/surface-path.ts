import { nearestOnOutline } from '../geometry/nearest';
import { piecesOf, type Shape } from '../geometry/shape';
import { fail, ok, type Result } from '../result';
import { metres, type Metres } from '../units';
import type { SurfaceMethod } from './drawn-surface';
import { steadyGradient } from './seepage';
import { flowLine, type FlowEnd } from './surface/flow-lines';
import { between, convexHull, type XY } from './surface/hull';
import { headAt, kriged, slopeAt, type KrigedSurface } from './surface/kriging';
import type { SurfacePoint } from './surface/surface-point';
import { headOnTin, triangulate } from './surface/tin';
import { tinFlowLines } from './surface/tin-flow';
import type { VariogramModel } from './surface/variogram-model';
import { surfaceProblemWords } from './surface-words';

/** The way water takes down a surface from a place, square to its contours. Ground metres about the middle of the wells. */
export type SurfacePath = {
  readonly points: readonly XY[];
  readonly length: Metres;
  /** The one gradient at which it would take as long: the harmonic mean along the way. Null for a level stretch. */
  readonly gradient: number | null;
  /** What ends it: the receptor, or what ends any flow line. */
  readonly end: FlowEnd | 'receptor';
  /** From its end to the receptor, straight; 0 where it is met, null where none was given. */
  readonly short: Metres | null;
};

/** The surface a path runs down. */
export type PathSurface = {
  readonly points: readonly SurfacePoint[];
  readonly method: SurfaceMethod;
  /** Null only when triangulated. */
  readonly model: VariogramModel | null;
};

/** Steps along the longer side of the outline, where the surface is kriged. */
const STEPS = 200;

/**
 * A particle of water followed down the surface of the heads from a seed until it
 * meets the receptor, or leaves the wells, beyond which nothing is known. It shows
 * where water goes in ground alike in all directions, and nothing of what it
 * carries. A sentence where there is no path.
 */
export function surfacePath(
  { points, method, model }: PathSurface,
  seed: XY,
  receptor: Shape | null,
): Result<SurfacePath, string> {
  const hull = convexHull(points.map(({ x, y }) => [x, y]));
  if (!hull) return fail('The wells span no surface.');
  const across = Math.max(...hull.flat().map(Math.abs)) * 2;
  const longest = metres(4 * across);
  const outside = fail('It stands outside the wells, or where the surface is level.');

  if (method === 'triangulated') {
    const tin = triangulate(points);
    if (!tin.ok) return fail(surfaceProblemWords(tin.problem));
    const [line] = tinFlowLines(tin.value, [seed], 'downstream', longest);
    return line
      ? ok(pathOf(line.points, line.end, ([x, y]) => headOnTin(tin.value, x, y), receptor))
      : outside;
  }
  if (!model) return fail('The heads are all alike: they give no variogram.');
  const through = krigedOf(points, method, model);
  if (!through.ok) return through;
  const surface = through.value;
  const head = ([x, y]: XY) => headAt(surface, x, y);
  const line = flowLine(([x, y]) => slopeAt(surface, x, y), head, seed, hull, {
    way: 'downstream',
    step: metres(across / STEPS),
    longest,
  });
  return line ? ok(pathOf(line.points, line.end, head, receptor)) : outside;
}

function krigedOf(
  points: readonly SurfacePoint[],
  method: SurfaceMethod,
  model: VariogramModel,
): Result<KrigedSurface, string> {
  const surface = kriged(points, {
    model,
    drift: method === 'kriged' ? 'none' : 'linear',
    errors: 'stated',
  });
  return surface.ok ? surface : fail(surfaceProblemWords(surface.problem));
}

/** The line as far as the receptor, with the gradient of each of its stretches. */
export function pathOf(
  line: readonly XY[],
  end: FlowEnd,
  headAt: (place: XY) => number | null,
  receptor: Shape | null,
): SurfacePath {
  const { points, isMet } = cutAt(line, receptor);
  const last = points.at(-1);
  const stretches = points.slice(1).map((to, i) => {
    const from = points[i] ?? to;
    const length = metres(Math.hypot(to[0] - from[0], to[1] - from[1]));
    const [above, below] = [headAt(from), headAt(to)];
    return {
      length,
      gradient: above === null || below === null ? 0 : (above - below) / length,
    };
  });
  // A corner on the outline may lie a rounding outside it, where there is no head.
  const known = stretches.filter(({ length, gradient }) => length > 1e-6 || gradient > 0);
  const steady = steadyGradient(known);
  return {
    points,
    length: metres(stretches.reduce((sum, { length }) => sum + length, 0)),
    gradient: steady?.gradient ?? null,
    end: isMet ? 'receptor' : end,
    short: isMet
      ? metres(0)
      : receptor && last
        ? metres(nearestOnOutline(receptor, last)?.distance ?? 0)
        : null,
  };
}

/** Nearer to a point receptor than this is there. */
const THERE = 1; // m

function cutAt(line: readonly XY[], receptor: Shape | null) {
  if (!receptor) return { points: line, isMet: false };
  const pieces = piecesOf(receptor);
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1], line[i]];
    if (!a || !b) continue;
    const met = pieces.flatMap((piece) => shareWhereMet(a, b, piece) ?? []);
    if (met.length > 0)
      return { points: [...line.slice(0, i), between(a, b, Math.min(...met))], isMet: true };
  }
  return { points: line, isMet: false };
}

/** How far from a to b they meet a piece of a shape, 0 to 1; null where they do not. */
function shareWhereMet(a: XY, b: XY, [c, d]: readonly [XY, XY]): number | null {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const [ex, ey] = [d[0] - c[0], d[1] - c[1]];
  const [fx, fy] = [c[0] - a[0], c[1] - a[1]];
  if (ex === 0 && ey === 0) {
    const square = dx * dx + dy * dy;
    const share = square === 0 ? 0 : Math.min(1, Math.max(0, (fx * dx + fy * dy) / square));
    const apart = Math.hypot(fx - share * dx, fy - share * dy);
    return apart <= THERE ? share : null;
  }
  const across = dx * ey - dy * ex;
  if (across === 0) return null;
  const [share, along] = [(fx * ey - fy * ex) / across, (fx * dy - fy * dx) / across];
  return share >= 0 && share <= 1 && along >= 0 && along <= 1 ? share : null;
}

/** Why the line stopped, in a sentence. */
export const END_WORDS: Readonly<Record<SurfacePath['end'], string>> = {
  receptor: 'It meets the receptor.',
  outline: 'It leaves the wells, and nobody has measured beyond.',
  level: 'It ends where the surface is level.',
  hollow: 'It ends in a hollow of the heads: a place worth a look.',
  top: 'It ends on a top of the heads.',
  length: 'It was followed no further.',
};
