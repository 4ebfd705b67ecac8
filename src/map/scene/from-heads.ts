import { lengthNumber, unitText } from '../../domain/show';
import type { LengthUnit } from '../../domain/units';
import type { GaugedScreen } from '../../domain/water/event-heads';
import { groupBy } from '../../domain/group';
import { SIZES, type Role } from '../look/look';
import { besidePoint, placeOf } from './from-locations';
import type { Face, TextItem } from './scene';
import { LEVEL_SIDES } from './sides';
import type { LevelMark } from './symbols';

type Manner = { readonly colour: Role; readonly face: Face; readonly means: string };

const MANNERS: Readonly<Record<LevelMark, Manner>> = {
  well: { colour: 'water', face: 'semibold', means: 'Head in a well, counted' },
  temporary: { colour: 'water', face: 'regular', means: 'Level in a temporary push point' },
  'surface water': { colour: 'water', face: 'italic', means: 'Surface water level' },
  'left out': { colour: 'ink-soft', face: 'italic', means: 'Head not counted' },
};

/** A head that counts is drawn whatever is near: px further off to look for room. */
const FURTHER: readonly number[] = [9, 18];

/** Which mark a level is posted with. */
export function levelMark(gauged: GaugedScreen): LevelMark {
  if (gauged.class === 'push') return 'temporary';
  if (gauged.class === 'gauge') return 'surface water';
  return gauged.leftOut === null ? 'well' : 'left out';
}

/** The level as posted: the head in the site's unit, in brackets where it does not count; or why there is none. */
export function levelWords({ head, leftOut }: GaugedScreen, unit: LengthUnit): string {
  if (head === null) return leftOut === 'dry' ? 'dry' : 'no head';
  const number = lengthNumber(head.value, unit, head.work.decimals);
  return leftOut === null ? number : `(${number})`;
}

/**
 * The levels of an event, posted at their points: those that count, and those
 * that do not, each in its own manner. Levels of one point stand one under the
 * other, in the order given.
 */
export function headItems(heads: readonly GaugedScreen[], unit: LengthUnit): TextItem[] {
  const groups = groupBy(heads, (gauged) => `${gauged.location.id}\n${levelMark(gauged)}`);
  return [...groups.values()].flatMap((group) => {
    const [gauged] = group;
    const at = gauged ? placeOf(gauged.location) : null;
    if (!gauged || !at) return [];
    const mark = levelMark(gauged);
    const { colour, face, means } = MANNERS[mark];
    return [
      {
        kind: 'text',
        layer: 'posted-heads',
        who: gauged.location.id,
        at,
        text: group.map((one) => levelWords(one, unit)).join('\n'),
        sides: LEVEL_SIDES,
        away: besidePoint(gauged.location.kind),
        further: mark === 'well' ? FURTHER : [],
        size: SIZES.note,
        face,
        colour,
        priority: gauged.leftOut === null ? 0 : 1,
        // A head that counts is never left off the map for want of room.
        always: mark === 'well',
        mark: `level, ${mark}`,
        means: `${means}, ${unitText(unit)}`,
      },
    ];
  });
}
