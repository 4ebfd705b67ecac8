import type { LocalGrid } from '../local-placing';
import type { LabSettings } from '../lab/lab-settings';
import type { FieldRules } from '../record/field-rules';
import type { CrewKit } from '../layout/crew-kit';
import type { ExpectedWater, ScreenRules } from '../layout/set-screens';
import type { CriteriaSet } from '../survey/stabilisation';
import type { SurveyBasis } from '../survey/survey-basis';
import type { LengthUnit, Metres, VolumeUnit } from '../units';
import type { RecordedUnits } from './read-cell';

/** A grid by its published code or by a projection string, or a local one. */
export type GridDefinition = {
  /** As people know it: "NAD83 / Indiana East". */
  readonly name: string;
  /** EPSG:2965, or null. */
  readonly code: string | null;
  /** A projection string, or null when the code says it all or the grid is local. */
  readonly projection: string | null;
  readonly unit: LengthUnit;
  /** How a local grid lies on a grid on earth; absent: it is tied to nothing, or is no local grid. */
  readonly local?: LocalGrid;
};

/** What holds for the whole site; stands in the descriptor. */
export type Settings = {
  readonly title: string;
  readonly grid: GridDefinition;
  /** Unit of depths, elevations and levels as recorded. */
  readonly verticalUnit: LengthUnit;
  /** Named, never converted: "NAVD 88". */
  readonly verticalDatum: string;
  readonly volumeUnit: VolumeUnit;
  /** Elevation of the site, for the combined factor. */
  readonly elevation: Metres;
  /** One standard error of a head where its own parts are not stated. */
  readonly headError: Metres;
  /** Confidence of intervals and tests, such as 0.95. */
  readonly confidence: number;
  /** Longest gauging may take before an arrow is doubtful, in hours. */
  readonly gaugingSpread: number;
  /** Sounded against computed depth: a greater difference leaves the interval uncertain. */
  readonly soundingTolerance: Metres;
  /** Sets of screening levels in use, in order. */
  readonly levelSets: readonly string[];
  /** Whether validation of the results is recorded as done. */
  readonly validated: boolean;
  /** When a purge counts as stable here; the first published set where none is chosen. */
  readonly purgeCriteria?: CriteriaSet;
  /** Sets of criteria of the site's own, beside the published ones. */
  readonly ownCriteria?: readonly CriteriaSet[];
  /** What a crew goes by here; the usual where none is set. */
  readonly fieldRules?: FieldRules;
  /** What the crew brings and how it samples; the usual where none is set. */
  readonly kit?: CrewKit;
  /** How screens of planned points are set, as they were last set; the usual where they were not. */
  readonly screenRules?: ScreenRules;
  /** Where water is expected while no heads around a point say so. */
  readonly expectedWater?: ExpectedWater;
  /** What the survey stands on; not stated where it is not set. */
  readonly survey?: SurveyBasis;
  /** How results are compared and checked, where a person chose otherwise than is usual. */
  readonly lab?: LabSettings;
};

/** Combined one-sigma error of a head: survey 0.01 ft, reading 0.01 ft, tape 0.005 ft, in quadrature. */
export const USUAL_HEAD_ERROR = 0.004572 as Metres; // 0.015 ft

/** The units a site's numbers are recorded in, where a cell states none, and printed in. */
export const unitsOf = ({ verticalUnit, grid, volumeUnit }: Settings): RecordedUnits => ({
  vertical: verticalUnit,
  grid: grid.unit,
  volume: volumeUnit,
});
