import { USUAL_FIELD_RULES, type FieldRules } from '../../domain/record/field-rules';
import { inUnits, metres, type LengthUnit, type Metres } from '../../domain/units';

type Json = Readonly<Record<string, unknown>>;

/** Amounts by name, in the order they are written; lengths stand in the site's vertical unit. */
const LENGTHS = ['staticChange', 'levelChange', 'holeDiameter'] as const;
const NUMBERS = ['staticMinutes', 'purgeMinutes', 'purgeLitres', 'clearAt', 'extraFill'] as const;
const TEXTS = ['samplePattern', 'qualityRates'] as const;
const MAY_BE_NONE: readonly string[] = ['holeDiameter', 'purgeMinutes', 'purgeLitres'];

/** The rules of the field out of a descriptor; null where they are not such. What is left out is as usual. */
export function readFieldRules(given: unknown, unit: LengthUnit): FieldRules | null {
  if (typeof given !== 'object' || given === null || Array.isArray(given)) return null;
  const found = given as Json;
  const rules: Record<string, unknown> = { ...USUAL_FIELD_RULES };
  for (const name of [...LENGTHS, ...NUMBERS]) {
    const value = found[name];
    if (value === undefined) continue;
    if (value === null && MAY_BE_NONE.includes(name)) rules[name] = null;
    else if (typeof value === 'number' && Number.isFinite(value) && value >= 0)
      rules[name] = LENGTHS.some((one) => one === name) ? metres(value, unit) : value;
    else return null;
  }
  for (const name of TEXTS) {
    const value = found[name];
    if (value === undefined) continue;
    if (typeof value !== 'string') return null;
    rules[name] = value;
  }
  return rules as FieldRules;
}

export function writeFieldRules(rules: FieldRules, unit: LengthUnit): Json {
  const length = (value: Metres | null) =>
    value === null ? null : Number(inUnits(value, unit).toFixed(6));
  return {
    ...rules,
    ...Object.fromEntries(LENGTHS.map((name) => [name, length(rules[name])])),
  };
}
