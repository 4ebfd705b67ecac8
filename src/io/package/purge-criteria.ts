import { PARAMETERS } from '../../domain/record/criteria';
import type { CriteriaSet, Criterion } from '../../domain/survey/stabilisation';

type Json = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const KNOWN: readonly string[] = ['read', 'as quoted', 'from memory', 'set here'];

const isSet = (value: unknown): value is CriteriaSet => readCriteria(value) !== null;

/** Sets of a site's own out of a descriptor; null where one of them is none. */
export const readOwnCriteria = (given: unknown): readonly CriteriaSet[] | null =>
  Array.isArray(given) && given.every(isSet) ? given : null;

const isAmount = (value: unknown): value is number | null =>
  value === null || (typeof value === 'number' && Number.isFinite(value) && value >= 0);

const isCriterion = (value: unknown): value is Criterion =>
  isRecord(value) &&
  PARAMETERS.some((one) => one === value.parameter) &&
  isAmount(value.within) &&
  isAmount(value.percent) &&
  isAmount(value.steadyBelow) &&
  KNOWN.includes(String(value.known));

/** A set of stabilisation criteria out of a descriptor; null where it is not one. */
export function readCriteria(given: unknown): CriteriaSet | null {
  if (!isRecord(given)) return null;
  const { name, source, readings, minutesApart, compared, criteria } = given;
  if (typeof name !== 'string' || typeof source !== 'string') return null;
  if (typeof readings !== 'number' || !Number.isInteger(readings) || readings < 2) return null;
  if (!isAmount(minutesApart) || (compared !== 'mean' && compared !== 'range')) return null;
  if (!Array.isArray(criteria) || !criteria.every(isCriterion)) return null;
  return { name, source, readings, minutesApart, compared, criteria };
}
