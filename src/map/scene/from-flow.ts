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
import { toward } from './plain';
import type { BarItem, Item, Place } from './scene';
import { sidesAhead } from './sides';

/** The `who` of the arrow and its fan. */
export const FLOW = 'flow';

/** Length of the arrow in parts of the farthest well's distance from the middle. */
const SHARE = 0.75;

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
  const { azimuthGrid, azimuthHalfWidth, centre, fitted, resolved } = flow;
  if (!resolved || azimuthGrid === null || centre === null) return [];
  const middle: Place = [centre.easting, centre.northing];
  const length = SHARE * Math.max(...fitted.map(({ x, y }) => Math.hypot(x, y)));
  const azimuth = azimuthGrid.value;
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
      size: SIZES.lead,
      face: 'semibold',
      colour: 'water',
      priority: 0,
      always: true,
    },
  ];
}

/** Height of the longest residual bar, px. */
const TALLEST = 44;

/**
 * What each well's head is above or below the plane, as bars standing on the
 * wells or hanging from them; the longest is of a fixed height, so that their
 * proportions count and not their size, and the legend says how much it is.
 */
export function residualItems({ fitted }: Flow, unit: LengthUnit): BarItem[] {
  const largest = Math.max(...fitted.map(({ residual }) => Math.abs(residual)), 0);
  if (largest === 0) return [];
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
        height: (residual / largest) * TALLEST,
        width: 7,
        colour: 'ink-soft',
        means: `Head above or below the plane, the longest ${longest}`,
      },
    ];
  });
}
