/** What a survey stands on, as its report says it. Blank where nobody said. */
export type SurveyBasis = {
  readonly benchmark: string;
  /** Datum of the monument and its realisation: "NAD 83(2011) epoch 2010.00". */
  readonly datum: string;
  readonly geoid: string;
  readonly method: string;
  readonly surveyor: string;
  readonly date: string;
};

export const NO_SURVEY_BASIS: SurveyBasis = {
  benchmark: '',
  datum: '',
  geoid: '',
  method: '',
  surveyor: '',
  date: '',
};

const NAMES: readonly (readonly [keyof SurveyBasis, string])[] = [
  ['benchmark', 'benchmark'],
  ['datum', 'monument datum and realisation'],
  ['geoid', 'geoid model'],
  ['method', 'method'],
  ['surveyor', 'surveyor'],
  ['date', 'date'],
];

export const SURVEY_FIELDS = NAMES;

/** The survey in one line for a sheet; what nobody said is said to be not stated. */
export const surveyWords = (basis: SurveyBasis): string =>
  NAMES.map(([field, name]) => `${name} ${basis[field].trim() || 'not stated'}`).join('; ');
