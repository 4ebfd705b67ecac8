import { lengthNumber, unitText } from '../domain/show';
import type { LengthUnit, Metres } from '../domain/units';
import type { FlowPoint } from '../domain/water/flow-points';
import { threePoint, type Construction as Solved } from '../domain/water/three-point';
import type { Flow } from '../domain/water/flow';
import {
  CONSTRUCTION_STEPS,
  constructionItems,
  type ConstructionWell,
} from './scene/from-three-points';
import type { Item, Place } from './scene/scene';

/** Units the drawing is written in. */
export type ConstructionUnits = { readonly vertical: LengthUnit; readonly grid: LengthUnit };

/** The three-point problem for three of the wells in a flow; null where they are not three of them. */
function solveThree(flow: Flow | null, wells: readonly string[]): Solved | null {
  const points = wells.flatMap(
    (id) => flow?.fitted.find(({ gauged }) => gauged.screen.id === id) ?? [],
  );
  if (points.length !== 3) return null;
  const solved = threePoint(
    points.map(({ gauged, x, y, head }) => ({
      id: gauged.screen.id,
      x,
      y,
      head,
      sigma: gauged.sigma,
    })),
  );
  return solved.ok ? solved.value.construction : null;
}

/**
 * The construction for three wells as drawn on the map, as far as a step; nothing
 * where there is none. Lengths written on it are on the ground.
 */
export function constructionOf(
  flow: Flow | null,
  wells: readonly string[],
  groundToGrid: number,
  { vertical, grid }: ConstructionUnits,
  step = CONSTRUCTION_STEPS,
): Item[] {
  const solved = solveThree(flow, wells);
  const centre = flow?.centre;
  if (!solved || !centre) return [];
  const place = ({ x, y }: { readonly x: Metres; readonly y: Metres }): Place => [
    centre.easting + x * groundToGrid,
    centre.northing + y * groundToGrid,
  ];
  const well = (point: Pick<FlowPoint, 'id' | 'x' | 'y' | 'head'>): ConstructionWell => ({
    who: flow.fitted.find(({ gauged }) => gauged.screen.id === point.id)?.gauged.location.id ?? '',
    at: place(point),
    head: lengthNumber(point.head, vertical),
  });
  const long = (distance: Metres) => `${lengthNumber(distance, grid, 1)} ${unitText(grid)}`;
  const { high, intermediate, low, interpolated, perpendicular } = solved;
  return constructionItems(
    {
      high: well(perpendicular.well === 'low' ? high : low),
      middle: well(intermediate),
      low: well(perpendicular.to),
      interpolated: place(interpolated),
      along: long(interpolated.fromHigh),
      foot: place(perpendicular.foot),
      distance: long(perpendicular.distance),
    },
    step,
  );
}
