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

/**
 * Lengths of the arrow, and how far along its way its middle lies from that of
 * the wells, in parts of the farthest well's distance: the usual first.
 */
const LAYINGS = [0.75, 0.65, 0.85, 0.55].flatMap((length) =>
  [0, -0.08, 0.08, -0.16, 0.16].map((along) => ({ length, along })),
);

/** In the same parts, how far its head keeps from the mark of a point, which would hide it. */
const CLEAR = 0.12;

/** In the same parts, where the middle of its words lies past its end, and how far about that points crowd them. */
const WORDS = { past: 0.2, about: 0.3 };

const gap = ([x, y]: Place, [east, north]: Place) => Math.hypot(x - east, y - north);

const reachOf = ({ fitted }: Flow) => Math.max(...fitted.map(({ x, y }) => Math.hypot(x, y)));

/** Tail and head of the arrow as it usually lies, or the next way no point stands on its head; where none is clear, the clearest. */
function laidArrow(reach: number, middle: Place, azimuth: number, marks: readonly Place[]) {
  const all = LAYINGS.map(({ length, along }) => {
    const [ahead, behind] = [along + length / 2, along - length / 2];
    const head = toward(middle, azimuth, ahead * reach);
    return {
      head,
      tail: toward(middle, azimuth, behind * reach),
      length: length * reach,
      clearance: Math.min(...marks.map((mark) => gap(mark, head))) / reach,
    };
  });
  const [clearest] = all.toSorted((a, b) => b.clearance - a.clearance);
  return all.find(({ clearance }) => clearance >= CLEAR) ?? clearest;
}

/** Points where words past an end of the arrow would stand. */
function crowdAt(end: Place, azimuth: number, reach: number, marks: readonly Place[]): number {
  const words = toward(end, azimuth, WORDS.past * reach);
  return marks.filter((mark) => gap(mark, words) < WORDS.about * reach).length;
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
 *
 * @param marks  places of points, which the head keeps off; its words stand at the end with fewer of them
 */
export function flowItems(flow: Flow, marks: readonly Place[] = []): Item[] {
  const { azimuthGrid, azimuthHalfWidth, centre, resolved } = flow;
  if (!resolved || azimuthGrid === null || centre === null) return [];
  const middle: Place = [centre.easting, centre.northing];
  const azimuth = azimuthGrid.value;
  const reach = reachOf(flow);
  const laid = laidArrow(reach, middle, azimuth, marks);
  if (!laid) return [];
  const { tail, head, length } = laid;
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
  const end = fan.length > 0 ? toward(tail, azimuth, length * BEYOND) : head;
  const isBehind = crowdAt(end, azimuth, reach, marks) > crowdAt(tail, azimuth + 180, reach, marks);
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
      ...(isBehind
        ? { at: tail, sides: sidesAhead(azimuth + 180), away: LINES.arrow }
        : {
            at: end,
            sides: sidesAhead(azimuth),
            away: fan.length > 0 ? LINES.arrow : 3.2 * LINES.arrow,
          }),
      text: flowWords(flow),
      further: FURTHER,
      size: SIZES.lead,
      face: 'semibold',
      colour: 'water',
      priority: 0,
      always: true,
    },
  ];
}

/** Height of a residual bar of one standard error of a head, or of the longest where that is more, px. */
const TALLEST = 44;

/**
 * What each well's head is above or below the plane, as bars standing on the
 * wells or hanging from them. Their scale is one standard error of a head, so
 * that residuals of nothing stay small; only larger ones are drawn to the
 * longest. The legend says how much the longest is, and that error.
 */
export function residualItems({ fitted }: Flow, unit: LengthUnit): BarItem[] {
  const largest = Math.max(...fitted.map(({ residual }) => Math.abs(residual)), 0);
  if (largest === 0) return [];
  const error = Math.max(...fitted.map(({ gauged }) => gauged.sigma));
  const scale = Math.max(largest, error);
  const said = (length: number) => lengthWords(metres(length), unit, RESIDUAL_DECIMALS);
  const means = `Head above or below the plane, the longest ${said(largest)}; a head’s standard error ${said(error)}`;
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
        means,
      },
    ];
  });
}
