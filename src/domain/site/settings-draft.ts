import { fail, ok, type Result } from '../result';
import { inUnits, isLengthUnit, isVolumeUnit, metres } from '../units';
import { decimal } from './read-cell';
import type { GridDefinition, Settings } from './settings';

/** The settings of a site as they are being written in a form: texts, in the site's units. */
export type SettingsDraft = {
  readonly title: string;
  readonly grid: GridDefinition;
  readonly verticalUnit: string;
  readonly verticalDatum: string;
  readonly volumeUnit: string;
  /** These three in the vertical unit of the draft. */
  readonly elevation: string;
  readonly headError: string;
  readonly soundingTolerance: string;
  /** Percent. */
  readonly confidence: string;
  /** Hours. */
  readonly gaugingSpread: string;
  readonly levelSets: readonly string[];
  readonly validated: boolean;
};

const inUnit = (length: Settings['elevation'], { verticalUnit }: Settings) =>
  String(Number(inUnits(length, verticalUnit).toFixed(6)));

export const draftOf = (settings: Settings): SettingsDraft => ({
  title: settings.title,
  grid: settings.grid,
  verticalUnit: settings.verticalUnit,
  verticalDatum: settings.verticalDatum,
  volumeUnit: settings.volumeUnit,
  elevation: inUnit(settings.elevation, settings),
  headError: inUnit(settings.headError, settings),
  soundingTolerance: inUnit(settings.soundingTolerance, settings),
  confidence: String(Number((settings.confidence * 100).toFixed(6))),
  gaugingSpread: String(settings.gaugingSpread),
  levelSets: settings.levelSets,
  validated: settings.validated,
});

/** What is wrong with one field of a draft. */
export type DraftProblem = { readonly field: keyof SettingsDraft; readonly says: string };

/** Settings of a draft, or what is wrong with it, field by field. */
export function settingsOf(draft: SettingsDraft): Result<Settings, readonly DraftProblem[]> {
  const problems: DraftProblem[] = [];
  const number = (
    field: 'elevation' | 'headError' | 'soundingTolerance' | 'confidence' | 'gaugingSpread',
    fits: (n: number) => boolean,
    expected: string,
  ): number => {
    const value = decimal(draft[field].trim());
    if (value !== null && fits(value)) return value;
    problems.push({ field, says: `Expected ${expected}.` });
    return 0;
  };
  const unit = isLengthUnit(draft.verticalUnit) ? draft.verticalUnit : 'm';
  const settings: Settings = {
    title: draft.title.trim(),
    grid: draft.grid,
    verticalUnit: unit,
    verticalDatum: draft.verticalDatum.trim(),
    volumeUnit: isVolumeUnit(draft.volumeUnit) ? draft.volumeUnit : 'L',
    elevation: metres(
      number('elevation', () => true, `a number in ${unit}`),
      unit,
    ),
    headError: metres(
      number('headError', (n) => n > 0, `a number in ${unit} above 0`),
      unit,
    ),
    soundingTolerance: metres(
      number('soundingTolerance', (n) => n >= 0, `a number in ${unit}, 0 or more`),
      unit,
    ),
    confidence:
      number('confidence', (n) => n >= 50 && n < 100, 'a percentage from 50 to under 100') / 100,
    gaugingSpread: number('gaugingSpread', (n) => n > 0, 'a number of hours above 0'),
    levelSets: draft.levelSets,
    validated: draft.validated,
  };
  if (settings.title === '') problems.push({ field: 'title', says: 'A site has a title.' });
  return problems.length > 0 ? fail(problems) : ok(settings);
}

/** What a change of units does to numbers that are recorded already; null where none is changed. */
export function unitCaution(before: Settings, draft: SettingsDraft): string | null {
  const changed = [
    before.verticalUnit === draft.verticalUnit ? '' : 'depths and elevations',
    before.grid.unit === draft.grid.unit ? '' : 'coordinates',
    before.volumeUnit === draft.volumeUnit ? '' : 'volumes',
  ].filter(Boolean);
  return changed.length === 0
    ? null
    : `Nothing is converted: ${changed.join(', ')} recorded already keep their numbers and are read in the new unit.`;
}

/** Settings of a new site, nothing of which is known yet. */
export const NEW_SITE: Settings = {
  title: 'New site',
  grid: { name: 'Local grid', code: null, projection: null, unit: 'ft' },
  verticalUnit: 'ft',
  verticalDatum: 'not stated',
  volumeUnit: 'gal',
  elevation: metres(0),
  headError: metres(0.015, 'ft'),
  confidence: 0.95,
  gaugingSpread: 24,
  soundingTolerance: metres(0.2, 'ft'),
  levelSets: [],
  validated: false,
};
