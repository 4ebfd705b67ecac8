import type { SheetTable } from '../layout/sheet-tables';
import { fixed, length, lengthNumber, unitText } from '../show';
import type { Settings } from '../site/settings';
import { inVolumeUnits, litres, type Metres } from '../units';
import type { FieldLine, Left } from './field-lines';
import { volumeCell } from './holes';

const STATES: Readonly<Record<FieldLine['state'], string>> = {
  'to push': 'to push',
  'next try': 'next try',
  reached: 'reached',
  short: 'short',
  dropped: 'dropped',
};

/** Not there yet: a place to write by hand on the printed sheet. */
const BLANK = '';

/**
 * The field sheet as words: what is planned and as pushed side by side, the
 * interval, the water, the purge, the samples, and how each hole was filled.
 *
 * @param notCleared  points whose clearance is not on record or has run out
 */
export function fieldTable(
  lines: readonly FieldLine[],
  settings: Settings,
  notCleared: ReadonlySet<string>,
): SheetTable {
  const { verticalUnit: unit, volumeUnit } = settings;
  const v = unitText(unit);
  const columns = [
    ['Point and hole', ''],
    ['Hole', `${v} below ground`],
    ['Tip, planned', `${v} below ground`],
    ['Tip, as pushed', `${v} below ground`],
    ['Exposed, planned', v],
    ['Exposed, as pushed', v],
    ['Interval, depth', `${v} below ground`],
    ['Interval, elevation', v],
    ['Sounded', `${v} below ground`],
    ['Opened, then water and rest after', 'time, min'],
    ['Water', `${v} below mark`],
    ['Purge', 'L, min, NTU'],
    ['Samples', ''],
    ['Fill, calculated', volumeUnit],
    ['Fill, placed', volumeUnit],
    ['Filled', ''],
  ] as const;
  return {
    columns: columns.map(([name, u]) => ({ name, unit: u, isNumber: false })),
    rows: lines.map((line) => rowOf(line, settings, notCleared)),
  };
}

function rowOf(
  line: FieldLine,
  settings: Settings,
  notCleared: ReadonlySet<string>,
): readonly string[] {
  const { point, hole, screen, interval, state, suffix, purge, water, filled } = line;
  const { verticalUnit: unit } = settings;
  const depth = (of: { readonly value: Metres } | null | undefined) =>
    of ? lengthNumber(of.value, unit) : BLANK;
  const span = (top: Metres, base: Metres) =>
    `${lengthNumber(top, unit)} to ${lengthNumber(base, unit)}`;
  const isToCome = state === 'to push' || state === 'next try';
  const warned = isToCome && notCleared.has(point.location.id) ? ', NOT CLEARED' : '';
  const name = suffix === '' ? point.location.id : `${point.location.id} ${suffix}`;
  const tip = screen?.tip_depth ?? null;
  return [
    `${name}, ${state === 'short' ? (hole?.outcome ?? 'short') : STATES[state]}${hole?.offset ? `, ${hole.offset}` : ''}${warned}`,
    line.isHoleTold ? 'as above' : depth(hole?.depth),
    depth(screen?.planned_tip_depth),
    depth(tip),
    depth(screen?.planned_exposed_length),
    tip ? depth(screen?.exposed_length) : BLANK,
    interval ? span(interval.topDepth.value, interval.baseDepth.value) : BLANK,
    interval?.topElevation && interval.baseElevation
      ? span(interval.topElevation.value, interval.baseElevation.value)
      : tip
        ? 'not known'
        : BLANK,
    tip ? depth(screen?.sounded_depth) : BLANK,
    tip
      ? `${screen?.set_time?.slice(5, 16).replace('T', ' ') ?? 'not known'}; water ${minutesText(filled.water)}; rest ${minutesText(filled.rest)}`
      : BLANK,
    water ? `${depth(water.depth_to_water)} ${water.status}`.trim() : BLANK,
    purge ? purgeWords(purge) : BLANK,
    line.samples.join(', '),
    line.isHoleTold || state === 'dropped' ? BLANK : sealingText(line, settings),
    hole?.decommission_volume && !line.isHoleTold
      ? amount(hole.decommission_volume.value, settings)
      : BLANK,
    state === 'dropped'
      ? (point.location.note ?? 'no reason written')
      : hole && !line.isHoleTold
        ? filledWords(hole)
        : BLANK,
  ];
}

const amount = (value: number, { volumeUnit }: Settings) =>
  fixed(inVolumeUnits(litres(value), volumeUnit), volumeUnit === 'gal' ? 2 : 1);

const minutesText = (minutes: number | null) =>
  minutes === null ? 'not known' : `${fixed(minutes, 0)} min`;

/** As it was calculated when the hole was filled, else as it is now. */
const sealingText = ({ hole, sealing }: FieldLine, settings: Settings): string =>
  hole?.decommission_calculated
    ? amount(hole.decommission_calculated.value, settings)
    : sealing === null
      ? 'not known'
      : volumeCell(sealing, settings);

const purgeWords = ({
  litres: pumped,
  minutes,
  turbidity,
  outcome,
}: NonNullable<FieldLine['purge']>) =>
  [
    `${pumped === null ? 'volume not known' : `${fixed(pumped, 1)} L`} in ${fixed(minutes, 0)} min`,
    turbidity === null ? 'turbidity not read' : `${turbidity} NTU`,
    outcome ?? 'not ended',
  ].join(', ');

const filledWords = (hole: NonNullable<FieldLine['hole']>): string => {
  if (hole.open_reason) return `LEFT OPEN: ${hole.open_reason}`;
  if (!hole.decommission_day) return 'OPEN';
  return [
    hole.decommission_material,
    hole.decommission_how,
    hole.decommission_day,
    hole.decommission_by,
  ]
    .filter((part) => part !== null)
    .join(', ');
};

/** "5 holes still to push, 70.0 ft in all; …", said anew after every hole. */
export function leftWords(left: Left, settings: Settings): string {
  const { verticalUnit: unit, volumeUnit } = settings;
  const push =
    left.holes === 0
      ? 'Nothing is left to push'
      : `${left.holes} ${left.holes === 1 ? 'hole' : 'holes'} still to push, ${length(left.depth, unit, 1)} in all${left.withoutDepth > 0 ? ` and ${left.withoutDepth} without a planned depth` : ''}`;
  const seal =
    left.sealing === null
      ? 'fill not known: a depth or the hole’s diameter is missing'
      : `${volumeCell(left.sealing, settings)} ${volumeUnit} of fill for them and ${left.open} standing open`;
  return `${push}; ${left.samples} ${left.samples === 1 ? 'interval' : 'intervals'} still to sample; ${seal}.`;
}
