import { addDecimals, decimalOf, plainText } from '../../domain/lab/decimal';
import { isRefusal, type Cell } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import { coordinateColumns } from './coordinates';
import { slotTitle } from './forms';
import { KindGroups } from './kinds';
import type { Places } from './places';
import type { Part, Plan } from './plan';
import { keptColumns, keyOf, required, slotColumns, tableColumns } from './plan-common';
import { levelsThere } from './plan-levels-there';
import { lengthColumns } from './length-columns';
import type { Rounds } from './rounds';

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
export function planLocations(
  context: Context,
  places: Places,
): { readonly plan: Plan; readonly rounds: Rounds | null } {
  const idAt = context.at('locations.id');
  const screenAt = context.at('screens.id');
  const locationAt = idAt ?? screenAt;
  const heading = context.heading(locationAt, 'Location');
  const id: Made = required(
    { column: 'id', from: locationAt === null ? [] : [locationAt], make: ([text = '']) => text },
    heading,
    'the name of the location',
  );
  const own = tableColumns(context, 'locations', [
    'locations.id',
    'locations.kind',
    'locations.status',
    ...COORDINATES,
  ]);
  const hasScreens =
    context.has(...SCREENS) || context.has(...MARKS) || context.at('@depth_below_ground') !== null;
  const locations: Part = {
    table: 'locations',
    key: keyOf('locations'),
    columns: [
      id,
      ...coordinateColumns(context),
      ...own,
      ...kindColumns(context, id, heading),
      ...(hasScreens ? [] : keptColumns(context, 'locations')),
    ],
  };
  if (context.has('locations.ground_elevation') && context.at('locations.ground_how') === null)
    context.askConstant(
      'locations.ground_how',
      null,
      'Heads are worked out from a ground elevation only where it is said to be surveyed or estimated.',
      false,
    );
  if (!hasScreens) return { plan: { rows: locations, once: [] }, rounds: null };

  const screenId: Made =
    screenAt !== null
      ? { ...id, from: [screenAt] }
      : { ...id, make: (texts) => { const name = id.make(texts); return typeof name === 'string' ? places.screenOf(name, heading) : name; } }; // prettier-ignore
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
      ...totalDepth(context),
    ],
  };
  const levels = levelsThere(context, screenId, context.has(...MARKS));
  const there = { parts: levels?.parts ?? [], rounds: levels?.rounds ?? null };
  if (!context.has(...MARKS))
    return { plan: { rows: screens, once: [locations, ...there.parts] }, rounds: there.rounds };
  const hasMark = (texts: readonly string[]) => texts.some((text) => text !== '');
  const markAt = MARKS.flatMap((slot) => context.at(slot) ?? []);
  /** A row that gives neither the mark's elevation nor its height has no mark. */
  const where = (made: Made): Made => ({
    ...made,
    from: [...markAt, ...made.from],
    make: (texts) =>
      markAt.length === 0 || hasMark(texts.slice(0, markAt.length))
        ? made.make(texts.slice(markAt.length))
        : '',
  });
  const marks: Part = {
    table: 'measuring_points',
    key: keyOf('measuring_points'),
    columns: [
      where(screenId),
      where({ ...screenId, column: 'screen' }),
      ...tableColumns(context, 'measuring_points', [
        'measuring_points.id',
        'measuring_points.screen',
      ]).map(where),
    ],
  };
  return {
    plan: { rows: screens, once: [locations, marks, ...there.parts] },
    rounds: there.rounds,
  };
}

/**
 * Kind and status of a row's location: as the file says, else as a person says
 * of its like. Locations the site has keep theirs where the file is silent.
 */
function kindColumns(context: Context, id: Made, heading: string): Made[] {
  const { locations } = context.target.site;
  const names = [...new Set(context.texts(id.from))].map((text) => text.trim());
  const fresh = names.filter((name) => name !== '' && !locations.has(name));
  const says = (slot: string) => context.at(slot) !== null || context.constant(slot) !== null;
  const isOpen = !says('locations.kind');
  const groups = isOpen
    ? new KindGroups(context, fresh, () =>
        isOfWells(context, heading)
          ? { kind: 'monitoring well', why: 'The headings of the file speak of wells.' }
          : null,
      )
    : null;
  const column = (name: 'kind' | 'status'): Made[] => {
    const slot = `locations.${name}`;
    if (!says(slot)) {
      if (groups)
        return [{ column: name, from: id.from, make: ([text = '']) => text === '' || locations.has(text) ? '' : groups.cell(text, name, heading) }]; // prettier-ignore
      if (fresh.length === 0) return [];
    }
    return slotColumns(context, context.slot(slot)).map((made) => ({
      ...made,
      from: [...id.from, ...made.from],
      make: ([text = '', ...texts]): Cell => {
        const cell = made.make(texts);
        if (!locations.has(text)) return cell;
        // What holds for all of a file's rows, and a blank, leave a location of the site as it is.
        return context.at(slot) === null || (isRefusal(cell) && cell.found === '') ? '' : cell;
      },
    }));
  };
  return [...column('kind'), ...column('status')];
}

/** The depth of the hole, where top and bottom of the screen are given beside it: kept under its own heading. */
function totalDepth(context: Context): Made[] {
  const at = context.at('screens.tip_depth');
  if (at === null || !isInterval(context)) return [];
  const column = context.heading(at, 'total depth').trim().toLowerCase();
  return [{ column, from: [at], make: ([text = '']): Cell => text }];
}

/** Whether the headings say that the locations are wells. */
const isOfWells = ({ source }: Context, heading: string) =>
  WELL_WORDS.test(heading) || source.headings.some((each) => /^well/i.test(each));

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
