import { NO_SURVEY_BASIS, type SurveyBasis } from '../../domain/survey/survey-basis';

/** What a survey stands on, out of a descriptor; null where it is not such. */
export function readSurveyBasis(given: unknown): SurveyBasis | null {
  if (typeof given !== 'object' || given === null || Array.isArray(given)) return null;
  const basis: Record<string, string> = { ...NO_SURVEY_BASIS };
  for (const [name, value] of Object.entries(given)) {
    if (!Object.hasOwn(NO_SURVEY_BASIS, name)) continue;
    if (typeof value !== 'string') return null;
    basis[name] = value;
  }
  return basis as SurveyBasis;
}
