import { readShape } from '../geometry/wkt';
import type { Site } from '../site/site';
import { metres } from '../units';
import type { XY } from './surface/hull';
import type { KrigingProblem } from './surface/kriging';
import type { TinProblem } from './surface/tin';
import type { Flow } from './flow';
import type { SurfacePoint } from './surface/surface-point';

/** Why no surface can be drawn, in a sentence. */
export function surfaceProblemWords(problem: TinProblem | KrigingProblem): string {
  switch (problem.kind) {
    case 'too-few-wells':
      return `${problem.have} place${problem.have === 1 ? ' has' : 's have'} a head; a surface needs ${problem.need}.`;
    case 'wells-in-a-line':
      return 'The wells are in a line: no surface lies between them.';
    case 'bad-variogram':
      return `The ${problem.part} of the variogram is not a number it can be.`;
    case 'wells-too-alike':
      return `Under this variogram the head at ${problem.ids.join(', ')} follows from the others: give it a nugget or a rougher shape.`;
  }
}

/** The heads of a plane as points of a surface, about the middle of the wells. */
export const surfacePoints = ({ fitted }: Flow): SurfacePoint[] =>
  fitted.map(({ gauged, x, y, head }) => ({
    id: gauged.screen.id,
    x,
    y,
    head,
    sigma: gauged.sigma,
  }));

/** No-flow lines drawn on the site, in ground metres about the middle of a flow's wells. */
export function noFlowLines({ features, settings, grid }: Site, { centre }: Flow): XY[][] {
  if (!centre) return [];
  const factor = grid.combinedFactor ?? 1;
  const ground = (east: number, north: number): XY => [
    (metres(east, settings.grid.unit) - centre.easting) / factor,
    (metres(north, settings.grid.unit) - centre.northing) / factor,
  ];
  return features.flatMap(({ kind, shape }) => {
    const read = kind === 'no-flow line' ? readShape(shape) : null;
    return read?.ok && read.value.kind === 'lines'
      ? read.value.lines.map((line) => line.map(([east, north]) => ground(east, north)))
      : [];
  });
}
