import {
  direction,
  directionDoubt,
  gradient,
  length as lengthWords,
  RESIDUAL_DECIMALS,
} from '../../domain/show';
import { metres, type LengthUnit } from '../../domain/units';
import type { Flow } from '../../domain/water/flow';
import { LINES, SIZES } from '../look/look';
import { placeOf } from './from-locations';
import { toward } from './plain';
import type { BarItem, Item, Place } from './scene';
import { sidesAhead } from './sides';

/** The `who` of the arrow and its fan. */
export const FLOW = 'flow';

/** Lengths of the arrow in parts of the farthest well's distance from the middle, the usual first. */
const SHARES: readonly number[] = [0.75, 0.65, 0.85, 0.55, 0.95, 0.45];

/** In the same parts, how far its head keeps from the mark of a well, which would hide it. */
const CLEAR = 0.12;

/** The usual length, or the next whose head no gauged well stands on; where none is clear, the clearest. */
function lengthOf({ gauged, fitted }: Flow, middle: Place, azimuth: number): number {
  const reach = Math.max(...fitted.map(({ x, y }) => Math.hypot(x, y)));
  const wells = gauged.flatMap(({ location }) => {
    const at = placeOf(location);
    return at ? [at] : [];
  });
  const clearance = (share: number) => {
    const [east, north] = toward(middle, azimuth, (share * reach) / 2);
    return Math.min(...wells.map(([x, y]) => Math.hypot(x - east, y - north))) / reach;
  };
  const clear = SHARES.find((share) => clearance(share) >= CLEAR);
  const [clearest = 0] = SHARES.toSorted((a, b) => clearance(b) - clearance(a));
  return (clear ?? clearest) * reach;
}

/** px further off that the words of the arrow may stand where points crowd its end. */
const FURTHER: readonly number[] = [14, 28, 42];

/** How far the fan reaches, in lengths of the arrow. */
const BEYOND = 1.15;

/** "112° ± 0.6° grid", with the digits of the sheet, and the gradient under it. */
export function flowWords({ azimuthGrid, azimuthHalfWidth, gradient: slope }: Flow): string {
  if (azimuthGrid === null) return '';
  const doubt = azimuthHalfWidth === null ? '' : ` ${directionDoubt(azimuthHalfWidth)}`;
  const way = `${direction(azimuthGrid.value)}${doubt} grid`;
  return slope === null ? way : `${way}\ngradient ${gradient(slope.value)}`;
}

/**
 * The arrow of flow over the middle of its wells, and the fan of directions it
 * could have at the site's confidence. Nothing at all where the direction is
 * not resolved.
 */
export function flowItems(flow: Flow): Item[] {
  const { azimuthGrid, azimuthHalfWidth, centre, resolved } = flow;
  if (!resolved || azimuthGrid === null || centre === null) return [];
  const middle: Place = [centre.easting, centre.northing];
  const azimuth = azimuthGrid.value;
  const length = lengthOf(flow, middle, azimuth);
  const tail = toward(middle, azimuth + 180, length / 2);
  const head = toward(middle, azimuth, length / 2);
  const fan: Item[] =
    azimuthHalfWidth === null
      ? []
      : [
          {
            kind: 'fan',
            layer: 'fan',
            who: FLOW,
            apex: tail,
            azimuth,
            halfAngle: azimuthHalfWidth,
            radius: length * BEYOND,
            colour: 'water',
            fill: 'water-wash',
            means: 'Directions the flow could have',
          },
        ];
  return [
    ...fan,
    {
      kind: 'arrow',
      layer: 'arrow',
      who: FLOW,
      tail,
      head,
      width: LINES.arrow,
      colour: 'water',
      means: 'Direction of flow',
    },
    {
      kind: 'text',
      layer: 'captions',
      who: FLOW,
      at: fan.length > 0 ? toward(tail, azimuth, length * BEYOND) : head,
      text: flowWords(flow),
      sides: sidesAhead(azimuth),
      away: fan.length > 0 ? LINES.arrow : 3.2 * LINES.arrow,
      further: FURTHER,
      size: SIZES.lead,
      face: 'semibold',
      colour: 'water',
      priority: 0,
      always: true,
    },
  ];
}

/** Height of a residual bar of so many standard errors of a head, or of the longest where that is more, px. */
const TALLEST = 44;
const WHOLE = 3;

/**
 * What each well's head is above or below the plane, as bars standing on the
 * wells or hanging from them. Their scale is three standard errors of a head,
 * so that residuals no larger than those stay small; only larger ones are drawn
 * to the longest. The legend says how much the longest is.
 */
export function residualItems({ fitted }: Flow, unit: LengthUnit): BarItem[] {
  const largest = Math.max(...fitted.map(({ residual }) => Math.abs(residual)), 0);
  if (largest === 0) return [];
  const errors = fitted.map(({ gauged }) => WHOLE * gauged.sigma);
  const scale = Math.max(largest, Math.max(...errors));
  const longest = lengthWords(metres(largest), unit, RESIDUAL_DECIMALS);
  return fitted.flatMap(({ gauged, residual }): BarItem[] => {
    const { easting, northing, id } = gauged.location;
    if (!easting || !northing) return [];
    return [
      {
        kind: 'bar',
        layer: 'bars',
        who: id,
        at: [easting.value, northing.value],
        height: (residual / scale) * TALLEST,
        width: 7,
        colour: 'ink-soft',
        means: `Head above or below the plane, the longest ${longest}`,
      },
    ];
  });
}
