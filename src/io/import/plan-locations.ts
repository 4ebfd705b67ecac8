import { addDecimals, decimalOf, plainText } from '../../domain/lab/decimal';
import type { Cell } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import { coordinateColumns } from './coordinates';
import { slotTitle } from './forms';
import type { Part, Plan } from './plan';
import { keptColumns, keyOf, required, slotColumns, tableColumns } from './plan-common';
import { lengthColumns } from './readers';

const COORDINATES = [
  'locations.easting',
  'locations.northing',
  'locations.planned_easting',
  'locations.planned_northing',
];

const SCREENS = [
  'screens.id',
  'screens.tip_depth',
  'screens.tool_offset',
  'screens.retraction',
  'screens.screen_length',
  'screens.exposed_length',
  'screens.sounded_depth',
  'screens.zone',
  'screens.set_time',
  'screens.pulled_time',
  '@screen_top',
  '@screen_bottom',
];

const MARKS = ['measuring_points.elevation', 'measuring_points.stick_up'];

const WELL_WORDS = /well|station_nm|mw|piezometer/i;

/**
 * A file of locations. Where it says something of screens or of the marks
 * levels are read from, they are made too: a row each, so that a well of
 * several ports is one location with a screen a port.
 */
export function planLocations(context: Context): Plan {
  const idAt = context.at('locations.id');
  const screenAt = context.at('screens.id');
  const locationAt = idAt ?? screenAt;
  const heading = context.heading(locationAt, 'Location');
  const id: Made = required(
    { column: 'id', from: locationAt === null ? [] : [locationAt], make: ([text = '']) => text },
    heading,
    'the name of the location',
  );
  const proposals = kindsProposed(context, heading);
  const own = tableColumns(context, 'locations', [
    'locations.id',
    'locations.kind',
    'locations.status',
    ...COORDINATES,
  ]);
  const hasScreens = context.has(...SCREENS) || context.has(...MARKS);
  const locations: Part = {
    table: 'locations',
    key: keyOf('locations'),
    columns: [
      id,
      ...coordinateColumns(context),
      ...own,
      ...slotColumns(context, context.slot('locations.kind'), proposals.kind),
      ...slotColumns(context, context.slot('locations.status'), proposals.status),
      ...(hasScreens ? [] : keptColumns(context, 'locations')),
    ],
  };
  if (context.has('locations.ground_elevation') && !context.has('locations.ground_how'))
    context.askConstant(
      'locations.ground_how',
      null,
      'Heads are worked out from a ground elevation only where it is said to be surveyed or estimated.',
      false,
    );
  if (!hasScreens) return { rows: locations, once: [] };

  const screenId: Made = { ...id, from: [screenAt ?? locationAt ?? 0] };
  const screens: Part = {
    table: 'screens',
    key: keyOf('screens'),
    columns: [
      screenId,
      { ...id, column: 'location' },
      ...intervalColumns(context),
      ...tableColumns(context, 'screens', [
        'screens.id',
        'screens.location',
        ...intervalSlots(context),
      ]),
      ...keptColumns(context, 'screens'),
    ],
  };
  if (!context.has(...MARKS)) return { rows: screens, once: [locations] };
  const marks: Part = {
    table: 'measuring_points',
    key: keyOf('measuring_points'),
    columns: [
      screenId,
      { ...screenId, column: 'screen' },
      ...tableColumns(context, 'measuring_points', [
        'measuring_points.id',
        'measuring_points.screen',
      ]),
    ],
  };
  return { rows: screens, once: [locations, marks] };
}

/** Wells where the headings say so; nothing where they don't. */
function kindsProposed({ source }: Context, heading: string) {
  const isWells = WELL_WORDS.test(heading) || source.headings.some((each) => /^well/i.test(each));
  return isWells ? { kind: 'monitoring well', status: 'installed' } : { kind: null, status: null };
}

const isInterval = (context: Context) =>
  context.has('@screen_top') && context.has('@screen_bottom');

const intervalSlots = (context: Context) =>
  isInterval(context) ? ['screens.tip_depth', 'screens.exposed_length'] : [];

/** Top and bottom of the open interval as the table has it: depth of its base and its length. */
function intervalColumns(context: Context): Made[] {
  if (!isInterval(context)) {
    const bottom = context.slot('@screen_bottom');
    return context.at('screens.tip_depth') === null && context.at('@screen_bottom') !== null
      ? lengthColumns(context, bottom, 'tip_depth')
      : [];
  }
  const [top] = lengthColumns(context, context.slot('@screen_top'), 'top');
  const [bottom, ...others] = lengthColumns(context, context.slot('@screen_bottom'), 'tip_depth');
  if (!top || !bottom) return [];
  const heading = context.heading(
    context.at('@screen_bottom'),
    slotTitle(context.slot('@screen_bottom')),
  );
  const exposed: Made = {
    column: 'exposed_length',
    from: [...top.from, ...bottom.from],
    make: (texts): Cell => {
      const from = top.make(texts.slice(0, top.from.length));
      const to = bottom.make(texts.slice(top.from.length));
      if (typeof from !== 'string') return from;
      if (typeof to !== 'string') return to;
      const [upper, lower] = [decimalOf(from), decimalOf(to)];
      if (!upper || !lower) return '';
      const length = addDecimals(lower, { digits: -upper.digits, exponent: upper.exponent });
      return length.digits > 0n
        ? plainText(length)
        : { column: heading, expected: `a depth below the top at ${from}`, found: to };
    },
  };
  return [bottom, ...others, exposed];
}
