import { QUALITY_RATES, type QualityRates } from '../layout/sample-counts';
import type { Settings } from '../site/settings';
import { USUAL_STATIC_RULE, type StaticRule } from '../survey/static-level';
import { metres, type Metres } from '../units';
import { USUAL_SAMPLE_PATTERN } from './sample-names';

/** What a crew goes by on a site: kept with its settings, so that the next tablet has it too. */
export type FieldRules = {
  /** A level is static when it changes less than this over so many minutes. */
  readonly staticChange: Metres;
  readonly staticMinutes: number;
  /** A level that differs from the last one by more is said at once. */
  readonly levelChange: Metres;
  /** Where purging stops whether it cleared or not; null for no such limit. */
  readonly purgeMinutes: number | null;
  readonly purgeLitres: number | null;
  /** Called clear at or below this, NTU. */
  readonly clearAt: number;
  /** Of the largest tool driven; null until somebody says. */
  readonly holeDiameter: Metres | null;
  /** Share mixed on top of a hole's own volume: 0.2 for a fifth. */
  readonly extraFill: number;
  readonly samplePattern: string;
  /** Name of the rates of duplicates and blanks. */
  readonly qualityRates: string;
};

/** All of these are common practice, no source; programmes name 5 to 50 NTU. */
export const USUAL_FIELD_RULES: FieldRules = {
  staticChange: USUAL_STATIC_RULE.change,
  staticMinutes: USUAL_STATIC_RULE.minutes,
  levelChange: metres(1, 'ft'),
  purgeMinutes: 60,
  purgeLitres: null,
  clearAt: 10,
  holeDiameter: null,
  extraFill: 0.2,
  samplePattern: USUAL_SAMPLE_PATTERN,
  qualityRates: QUALITY_RATES[0]?.name ?? '',
};

export const fieldRulesOf = ({ fieldRules }: Settings): FieldRules =>
  fieldRules ?? USUAL_FIELD_RULES;

/** The static rule of a site, and whence it is. */
export function staticRuleOf({
  staticChange: change,
  staticMinutes: minutes,
}: FieldRules): StaticRule {
  const isUsual = change === USUAL_STATIC_RULE.change && minutes === USUAL_STATIC_RULE.minutes;
  return { change, minutes, source: isUsual ? USUAL_STATIC_RULE.source : 'Set on this site' };
}

export const ratesOf = ({ qualityRates }: FieldRules): QualityRates =>
  QUALITY_RATES.find(({ name }) => name === qualityRates) ?? (QUALITY_RATES[0] as QualityRates);
