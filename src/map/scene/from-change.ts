import { lengthNumber } from '../../domain/show';
import type { LengthUnit } from '../../domain/units';
import type { HeadChange } from '../../domain/water/over-time';
import { SIZES } from '../look/look';
import { placeOf } from './from-locations';
import type { Item } from './scene';

/** Height of the longest bar of change, px. */
const TALLEST = 44;

/** Rise or fall of each head as a bar with its number, proportions to the largest. */
export function changeItems(changes: readonly HeadChange[], unit: LengthUnit): Item[] {
  const largest = Math.max(0, ...changes.map(({ change }) => Math.abs(change)));
  return changes.flatMap(({ gauged, change }): Item[] => {
    const at = placeOf(gauged.location);
    if (!at) return [];
    const height = largest === 0 ? 0 : (change / largest) * TALLEST;
    return [
      {
        kind: 'bar',
        layer: 'bars',
        who: gauged.location.id,
        at,
        height,
        width: 9,
        colour: 'water',
        means: 'Rise (up) or fall (down) of the head',
      },
      {
        kind: 'text',
        layer: 'captions',
        who: gauged.location.id,
        at,
        text: `${change > 0 ? '+' : ''}${lengthNumber(change, unit)}`,
        sides: ['e', 'w', height < 0 ? 's' : 'n'],
        away: 14,
        size: SIZES.note,
        face: 'semibold',
        colour: 'ink',
        priority: 1,
        always: true,
      },
    ];
  });
}
