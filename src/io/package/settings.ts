import { readLabSettings } from '../../domain/lab/lab-settings';
import type { Problem } from '../../domain/site/problem';
import { USUAL_HEAD_ERROR, type Settings } from '../../domain/site/settings';
import { readLocalGrid } from './local-grid';
import { readFieldRules, writeFieldRules } from './field-rules';
import { readKit } from './crew-kit';
import { readExpectedWater, readScreenRules } from './screen-rules';
import { readSurveyBasis } from './survey-basis';
import { readCriteria, readOwnCriteria } from './purge-criteria';
import { isLengthUnit, metres, type LengthUnit, inUnits } from '../../domain/units';

/** The version of the layout this app writes; a newer one is refused politely. */
export const FORMAT = 1;

type Json = Readonly<Record<string, unknown>>;

export const isRecord = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const UNITS = 'm, ft or us-ft';

/** A value as it is found, for a sentence. */
const said = (value: unknown) =>
  value === undefined ? '' : typeof value === 'string' ? value : JSON.stringify(value);

export type ReadSettings = {
  readonly settings: Settings;
  readonly problems: readonly Problem[];
  /** Units that were named but are none: columns in them can't be read. */
  readonly unknown: { readonly vertical: string | null; readonly grid: string | null };
};

/** The settings in a descriptor; what can't be read is named and takes its usual value. */
export function readSettings(descriptor: Json): ReadSettings {
  const problems: Problem[] = [];
  const given = isRecord(descriptor.downgradient) ? descriptor.downgradient : {};
  const grid = isRecord(given.grid) ? given.grid : {};

  const doubt = (column: string, expected: string, found: unknown) =>
    problems.push({
      table: 'datapackage',
      file: 'datapackage.json',
      row: null,
      column,
      expected,
      found: said(found),
    });
  const text = (from: Json, name: string, column: string, usual: string) => {
    const value = from[name];
    if (typeof value === 'string') return value;
    if (value !== undefined && value !== null) doubt(column, 'a text', value);
    return usual;
  };
  const number = (name: string, usual: number, low: number, high: number) => {
    const value = given[name];
    if (value === undefined) return usual;
    if (typeof value === 'number' && value >= low && value <= high) return value;
    doubt(`downgradient.${name}`, `a number from ${low} to ${high}`, value);
    return usual;
  };
  const unit = (value: unknown, column: string): LengthUnit | null => {
    if (typeof value === 'string' && isLengthUnit(value)) return value;
    doubt(column, `a unit: ${UNITS}`, value);
    return null;
  };

  const vertical = unit(given.verticalUnit, 'downgradient.verticalUnit');
  const gridUnit = unit(grid.unit, 'downgradient.grid.unit');
  const usual = vertical ?? 'm';
  const code = text(grid, 'code', 'downgradient.grid.code', '');
  const projection = text(grid, 'projection', 'downgradient.grid.projection', '');
  const local = readLocalGrid(grid.local);
  if (grid.local !== undefined && local === null)
    doubt('downgradient.grid.local', 'how the local grid lies on another', grid.local);
  const sets = given.levelSets;
  if (sets !== undefined && !(Array.isArray(sets) && sets.every((s) => typeof s === 'string')))
    doubt('downgradient.levelSets', 'a list of names of level sets', sets);

  const criteria = readCriteria(given.purgeCriteria);
  if (given.purgeCriteria !== undefined && criteria === null)
    doubt('downgradient.purgeCriteria', 'a set of stabilisation criteria', given.purgeCriteria);
  const own = readOwnCriteria(given.ownCriteria);
  if (given.ownCriteria !== undefined && own === null)
    doubt('downgradient.ownCriteria', 'a list of sets of criteria', given.ownCriteria);
  const rules = readFieldRules(given.fieldRules, usual);
  if (given.fieldRules !== undefined && rules === null)
    doubt(
      'downgradient.fieldRules',
      'the rules of the field, amounts of 0 or more',
      given.fieldRules,
    );

  const kit = readKit(given.kit, usual);
  if (given.kit !== undefined && kit === null)
    doubt('downgradient.kit', 'what the crew brings, amounts of 0 or more', given.kit);
  const screenRules = readScreenRules(given.screenRules);
  if (given.screenRules !== undefined && screenRules === null)
    doubt('downgradient.screenRules', 'rules that set screens', given.screenRules);
  const expectedWater = readExpectedWater(given.expectedWater);
  if (given.expectedWater !== undefined && expectedWater === null)
    doubt('downgradient.expectedWater', 'a depth and an error of 0 or more', given.expectedWater);
  const survey = readSurveyBasis(given.survey);
  if (given.survey !== undefined && survey === null)
    doubt('downgradient.survey', 'texts about the survey', given.survey);

  const { lab, wrong } = readLabSettings(given.lab);
  for (const part of wrong)
    doubt(`downgradient.${part}`, 'what this app writes there', 'something else');

  const settings: Settings = {
    title: text(descriptor, 'title', 'title', text(descriptor, 'name', 'name', 'Site')),
    grid: {
      name: text(grid, 'name', 'downgradient.grid.name', code || 'Local grid'),
      code: code || null,
      projection: projection || null,
      unit: gridUnit ?? 'm',
      ...(local === null ? {} : { local }),
    },
    verticalUnit: usual,
    verticalDatum: text(given, 'verticalDatum', 'downgradient.verticalDatum', 'datum not stated'),
    volumeUnit: given.volumeUnit === 'gal' || given.volumeUnit === 'L' ? given.volumeUnit : 'L',
    elevation: metres(number('elevation', 0, -2000, 30_000), usual),
    headError: metres(number('headError', inUnits(USUAL_HEAD_ERROR, usual), 1e-6, 100), usual),
    confidence: number('confidence', 0.95, 0.5, 0.999),
    gaugingSpread: number('gaugingSpreadHours', 24, 0, 8760),
    soundingTolerance: metres(
      number('soundingTolerance', inUnits(metres(0.2, 'ft'), usual), 0, 100),
      usual,
    ),
    levelSets: Array.isArray(sets) ? sets.filter((s) => typeof s === 'string') : [],
    validated: given.validated === true,
    ...(criteria === null ? {} : { purgeCriteria: criteria }),
    ...(own === null ? {} : { ownCriteria: own }),
    ...(rules === null ? {} : { fieldRules: rules }),
    ...(kit === null ? {} : { kit }),
    ...(screenRules === null ? {} : { screenRules }),
    ...(expectedWater === null ? {} : { expectedWater }),
    ...(survey === null ? {} : { survey }),
    ...(lab === null ? {} : { lab }),
  };
  return {
    settings,
    problems,
    unknown: {
      vertical: vertical === null ? said(given.verticalUnit) || 'no unit' : null,
      grid: gridUnit === null ? said(grid.unit) || 'no unit' : null,
    },
  };
}

/** Settings as they stand in the descriptor. Lengths are in the vertical unit, rounded to a micron. */
export function writeSettings(settings: Settings): Json {
  const inVertical = (length: Settings['headError']) =>
    Number(inUnits(length, settings.verticalUnit).toFixed(6));
  const { grid } = settings;
  return {
    format: FORMAT,
    grid: {
      name: grid.name,
      code: grid.code,
      projection: grid.projection,
      unit: grid.unit,
      ...(grid.local ? { local: grid.local } : {}),
    },
    verticalUnit: settings.verticalUnit,
    verticalDatum: settings.verticalDatum,
    volumeUnit: settings.volumeUnit,
    elevation: inVertical(settings.elevation),
    headError: inVertical(settings.headError),
    confidence: settings.confidence,
    gaugingSpreadHours: settings.gaugingSpread,
    soundingTolerance: inVertical(settings.soundingTolerance),
    levelSets: settings.levelSets,
    validated: settings.validated,
    ...(settings.purgeCriteria ? { purgeCriteria: settings.purgeCriteria } : {}),
    ...(settings.ownCriteria ? { ownCriteria: settings.ownCriteria } : {}),
    ...(settings.fieldRules
      ? { fieldRules: writeFieldRules(settings.fieldRules, settings.verticalUnit) }
      : {}),
    ...(settings.kit ? { kit: settings.kit } : {}),
    ...(settings.screenRules ? { screenRules: settings.screenRules } : {}),
    ...(settings.expectedWater ? { expectedWater: settings.expectedWater } : {}),
    ...(settings.survey ? { survey: settings.survey } : {}),
    ...(settings.lab ? { lab: settings.lab } : {}),
  };
}
