import { fixed } from '../show';
import type { Edit } from '../site/edits/apply';
import { RECORD_TABLES } from '../site/schema-record';
import type { Settings } from '../site/settings';
import {
  CRITERIA_SETS,
  type CriteriaSet,
  type Criterion,
  type Parameter,
} from '../survey/stabilisation';

export const PARAMETERS: readonly Parameter[] = [
  'ph',
  'conductance',
  'dissolved_oxygen',
  'orp',
  'temperature',
  'turbidity',
];

const FIELDS = RECORD_TABLES.purge_readings.fields;

export const parameterName = (parameter: Parameter) => FIELDS[parameter].says;
export const parameterUnit = (parameter: Parameter) => FIELDS[parameter].unit;

/** "3 successive readings, at least 3 min apart, each against their mean". */
export const setWords = ({ readings, minutesApart, compared }: CriteriaSet) =>
  `${readings} successive readings${minutesApart === null ? '' : `, at least ${fixed(minutesApart, 0)} min apart`}, ${compared === 'mean' ? 'each against their mean' : 'largest less smallest'}`;

/** "±0.1 pH", "±10 % or ±0.2 mg/L, whichever is more, or any below 5 NTU". */
export function criterionWords({ parameter, within, percent, steadyBelow }: Criterion): string {
  const unit = parameterUnit(parameter);
  const parts = [
    percent === null ? '' : `±${percent} %`,
    within === null ? '' : `±${within} ${unit}`,
  ].filter((part) => part !== '');
  const how =
    parts.length === 2 ? `${parts.join(' or ')}, whichever is more` : (parts[0] ?? 'no change');
  return steadyBelow === null ? how : `${how}, or any at or below ${steadyBelow} ${unit}`;
}

/** Sets to choose from: the published ones, then the site's own. */
export const criteriaSets = ({
  ownCriteria = [],
  purgeCriteria,
}: Settings): readonly CriteriaSet[] => {
  const sets = [...CRITERIA_SETS, ...ownCriteria];
  const isListed = !purgeCriteria || sets.some(({ name }) => name === purgeCriteria.name);
  return isListed ? sets : [...sets, purgeCriteria];
};

/** The set in use on a site: the one chosen, else the first published one. */
export const criteriaOf = ({ purgeCriteria }: Settings): CriteriaSet =>
  purgeCriteria ?? (CRITERIA_SETS[0] as CriteriaSet);

export const isPublished = ({ name }: CriteriaSet) =>
  CRITERIA_SETS.some((set) => set.name === name);

/** A set in use from now on; it stays among the site's own. */
export const useSetEdit = (set: CriteriaSet): Edit => ({
  kind: 'change-settings',
  settings: { purgeCriteria: set },
});

/** A copy of a set under a name of the site's own, in use. Its source says what it was made from. */
export function ownCopyEdit(settings: Settings, from: CriteriaSet): Edit {
  const taken = new Set(criteriaSets(settings).map(({ name }) => name));
  const stem = `${from.name}, as changed for this site`;
  let name = stem;
  for (let n = 2; taken.has(name); n++) name = `${stem} ${n}`;
  const own = { ...from, name, source: `Set on this site, from: ${from.source}` };
  return ownEdit(own, [...(settings.ownCriteria ?? []), own]);
}

/** Why a set of the site's own cannot take a name; null when it can. */
export const badSetName = (settings: Settings, set: CriteriaSet, name: string): string | null =>
  name.trim() === ''
    ? 'A set needs a name.'
    : name !== set.name && criteriaSets(settings).some((one) => one.name === name)
      ? 'There is a set of this name already.'
      : null;

/** The site's own set in use, changed. What was not read in a source any more says so. */
export function changeOwnEdit(
  settings: Settings,
  set: CriteriaSet,
  change: Partial<CriteriaSet>,
): Edit {
  const next = { ...set, ...change };
  const others = settings.ownCriteria ?? [];
  const own = others.some(({ name }) => name === set.name)
    ? others.map((one) => (one.name === set.name ? next : one))
    : [...others, next];
  return ownEdit(next, own);
}

/** A set of the site's own taken away; the first published one is then in use. */
export const removeOwnEdit = (settings: Settings, set: CriteriaSet): Edit =>
  ownEdit(
    CRITERIA_SETS[0] as CriteriaSet,
    (settings.ownCriteria ?? []).filter(({ name }) => name !== set.name),
  );

const ownEdit = (purgeCriteria: CriteriaSet, ownCriteria: readonly CriteriaSet[]): Edit => ({
  kind: 'change-settings',
  settings: { purgeCriteria, ownCriteria },
});

/** One criterion of a set changed, added where the set has none for the parameter. */
export function withCriterion(
  { criteria }: CriteriaSet,
  parameter: Parameter,
  change: Partial<Pick<Criterion, 'within' | 'percent' | 'steadyBelow'>>,
): readonly Criterion[] {
  const none = { parameter, within: null, percent: null, steadyBelow: null } as const;
  const before = criteria.find((one) => one.parameter === parameter) ?? none;
  const next = { ...before, ...change, known: 'set here' } as const;
  return PARAMETERS.flatMap((each) =>
    each === parameter ? [next] : criteria.filter((one) => one.parameter === each),
  );
}
