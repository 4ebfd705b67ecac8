import { fieldOf, fieldsOf, TABLES, type Field, type TableName } from '../../domain/site/schema';

/**
 * Kinds of file by the table their rows belong to. A file of wells also brings
 * screens and measuring points, a laboratory file also samples: their columns
 * are slots of the form too.
 */
export type FormName = TableName;

/**
 * A place a column of a file can go to: a column of a table, or something that
 * becomes one: a longitude, a depth below ground, a time of day by itself.
 */
export type Slot = {
  /** "locations.id"; "@longitude" for what becomes a column. */
  readonly id: string;
  readonly table: TableName;
  readonly field: Field;
  readonly says: string;
};

const own = (table: TableName, leaveOut: readonly string[] = []): Slot[] =>
  fieldsOf(table)
    .filter(([column]) => !leaveOut.includes(column))
    .map(([column, field]) => ({ id: `${table}.${column}`, table, field, says: field.says }));

const some = (table: TableName, columns: readonly string[]): Slot[] =>
  columns.flatMap((column) => {
    const field = fieldOf(table, column);
    return field ? [{ id: `${table}.${column}`, table, field, says: field.says }] : [];
  });

const becoming = (id: string, table: TableName, field: Field): Slot => ({
  id,
  table,
  field,
  says: field.says,
});

const UNIT = (table: TableName) =>
  becoming('@unit', table, { kind: 'text', says: 'Unit of the depths and elevations in the row' });

const CLOCK = (table: TableName) =>
  becoming('@clock', table, { kind: 'text', says: 'Time of day, where the date stands by itself' });

const LOCATIONS: readonly Slot[] = [
  ...own('locations'),
  becoming('@longitude', 'locations', {
    kind: 'text',
    says: 'Longitude, decimal or in degrees, minutes and seconds; west negative or with W',
  }),
  becoming('@latitude', 'locations', {
    kind: 'text',
    says: 'Latitude, decimal or in degrees, minutes and seconds',
  }),
  becoming('@place', 'locations', {
    kind: 'text',
    says: 'Latitude and longitude in one cell',
  }),
  ...some('screens', [
    'id',
    'tip_depth',
    'tool_offset',
    'retraction',
    'screen_length',
    'exposed_length',
    'sounded_depth',
    'zone',
    'set_time',
    'pulled_time',
  ]),
  becoming('@screen_top', 'screens', {
    kind: 'length',
    least: 0,
    says: 'Depth of the top of the open interval below ground',
  }),
  becoming('@screen_bottom', 'screens', {
    kind: 'length',
    least: 0,
    says: 'Depth of the bottom of the open interval below ground',
  }),
  ...some('measuring_points', [
    'elevation',
    'stick_up',
    'description',
    'accuracy',
    'surveyor',
    'from_day',
  ]),
  becoming('@shot', 'locations', {
    kind: 'text',
    says: 'What a surveyor shot: a location, with the mark where one is said: MW-1 TOC, MW-1 GS, GP-01',
  }),
  becoming('@shot_elevation', 'locations', {
    kind: 'length',
    says: 'Elevation of what was shot: the ground, or the mark levels are read from',
  }),
  becoming('@depth_below_ground', 'water_levels', {
    kind: 'length',
    says: 'Depth to water below the land surface, positive down; blank if not read',
  }),
  becoming('@read_time', 'water_levels', { kind: 'time', says: 'When that level was read' }),
  ...some('water_levels', ['status']).map((slot) => ({ ...slot, id: '@read_status' })),
  UNIT('locations'),
];

const WATER_LEVELS: readonly Slot[] = [
  ...own('water_levels'),
  becoming('@depth_below_ground', 'water_levels', {
    kind: 'length',
    says: 'Depth to water below the land surface, positive down; blank if dry',
  }),
  CLOCK('water_levels'),
  UNIT('water_levels'),
];

const RESULTS: readonly Slot[] = [
  ...own('results', ['sample']),
  ...own('samples', ['note']),
  becoming('@remark', 'results', {
    kind: 'text',
    says: 'A sign or letter beside the result: < not detected, E estimated',
  }),
  CLOCK('results'),
];

const FORMS: Readonly<Partial<Record<FormName, readonly Slot[]>>> = {
  locations: LOCATIONS,
  water_levels: WATER_LEVELS,
  results: RESULTS,
  purge_readings: [...own('purge_readings'), CLOCK('purge_readings'), UNIT('purge_readings')],
};

const kept = new Map<FormName, readonly Slot[]>();

/** The slots of a form, the table's own columns first. */
export function slotsOf(form: FormName): readonly Slot[] {
  const before = kept.get(form);
  if (before) return before;
  const slots = FORMS[form] ?? own(form);
  kept.set(form, slots);
  return slots;
}

export const slotNamed = (form: FormName, id: string): Slot | null =>
  slotsOf(form).find((slot) => slot.id === id) ?? null;

/** The column of its table a slot fills; null for what only becomes one. */
export const columnOf = ({ id }: Slot): string | null =>
  id.startsWith('@') ? null : (id.split('.')[1] ?? null);

/** Slots whose column says too little by itself. */
const TITLES: Readonly<Record<string, string>> = {
  'locations.ground_how': 'how the ground elevation is known',
  'locations.id': 'name',
  'screens.id': 'name',
  'samples.id': 'name',
  'measuring_points.from_day': 'first day it was used',
  'water_levels.why': 'why it is used or left out',
  '@shot': 'what was shot',
  '@shot_elevation': 'elevation of the shot',
  '@remark': 'sign beside the result',
  '@clock': 'time of day',
  '@unit': 'unit of the row',
  '@depth_below_ground': 'depth below ground',
  '@read_time': 'when read',
  '@read_status': 'state of the water',
};

/** "Water levels: depth to water" for lists of choices. */
export const slotTitle = (slot: Slot): string => {
  const column = columnOf(slot) ?? slot.id.slice(1);
  return `${TABLES[slot.table].title}: ${TITLES[slot.id] ?? column.replaceAll('_', ' ')}`;
};

/**
 * What a file must have to be of a form: one slot of each list. A file that has
 * none of a list is of another form.
 */
export const ESSENCE: Readonly<Record<FormName, readonly (readonly string[])[]>> = {
  locations: [
    ['locations.id', 'screens.id', '@shot'],
    [
      'locations.easting',
      '@longitude',
      '@place',
      'locations.ground_elevation',
      'measuring_points.elevation',
      '@screen_top',
      'screens.tip_depth',
      'locations.kind',
      'locations.planned_easting',
    ],
  ],
  water_levels: [
    ['water_levels.screen'],
    ['water_levels.depth_to_water', '@depth_below_ground', 'water_levels.depth_to_product'],
  ],
  results: [['results.analyte', 'results.cas'], ['results.value']],
  screening_levels: [
    ['screening_levels.analyte', 'screening_levels.cas'],
    ['screening_levels.value'],
  ],
  purge_readings: [
    ['purge_readings.screen'],
    ['purge_readings.time'],
    [
      'purge_readings.ph',
      'purge_readings.conductance',
      'purge_readings.dissolved_oxygen',
      'purge_readings.orp',
      'purge_readings.turbidity',
    ],
  ],
  strata: [
    ['strata.location'],
    ['strata.top'],
    ['strata.bottom'],
    ['strata.description', 'strata.class'],
  ],
  survey_shots: [['survey_shots.point'], ['survey_shots.backsight', 'survey_shots.foresight']],
  screens: [['screens.id'], ['screens.location']],
  measuring_points: [
    ['measuring_points.screen'],
    ['measuring_points.elevation', 'measuring_points.stick_up'],
  ],
  attempts: [['attempts.location'], ['attempts.outcome']],
  features: [['features.shape']],
  events: [['events.id'], ['events.first_day']],
  samples: [['samples.id'], ['samples.screen', 'samples.kind', 'samples.custody_number']],
  qualifier_legends: [['qualifier_legends.letter'], ['qualifier_legends.meaning']],
  decisions: [['decisions.what'], ['decisions.on']],
  views: [['views.id'], ['views.shown']],
};
