import { USUAL_BLANK_RULE, type BlankRule } from './blanks';
import { USUAL_DUPLICATE_LIMITS, type DuplicateLimits } from './duplicates';
import { USUAL_HOLDING_LIMITS, type HoldingLimit } from './holding-time-list';
import { USUAL_RULES, type SetRules } from './level';
import type { NonDetectRule } from './sums';

/** px right and down of its point, at the size of the screen. */
export type BoxOffset = readonly [right: number, down: number];

/**
 * What a person has chosen for the laboratory's results of a site. What is absent
 * is as usual, so that a site that chose nothing follows the usual values.
 */
export type LabSettings = {
  /** What a non-detect adds to a sum. */
  readonly sums?: NonDetectRule;
  /** How the levels of a set are compared with, by the set's name. */
  readonly sets?: Readonly<Record<string, Partial<SetRules>>>;
  readonly duplicates?: DuplicateLimits;
  readonly blanks?: Pick<BlankRule, 'times' | 'timesForUsual'>;
  readonly holding?: readonly HoldingLimit[];
  /** NTU at or below which the water of a sample is called clear. */
  readonly clearBelow?: number;
  /** Where boxes of results were put by hand, by location. */
  readonly boxes?: Readonly<Record<string, BoxOffset>>;
};

/** A sample is called clear at or below this. Common practice, no source; programmes name 5 to 50. */
export const USUAL_CLEAR_BELOW = 10; // NTU

type WithLab = { readonly lab?: LabSettings };

export const sumRuleOf = ({ lab }: WithLab): NonDetectRule => lab?.sums ?? 'range';

export const rulesOfSet = ({ lab }: WithLab, set: string): SetRules => ({
  ...USUAL_RULES,
  ...(lab?.sets && Object.hasOwn(lab.sets, set) ? lab.sets[set] : {}),
});

export const duplicateLimitsOf = ({ lab }: WithLab): DuplicateLimits =>
  lab?.duplicates ?? USUAL_DUPLICATE_LIMITS;

export const blankRuleOf = ({ lab }: WithLab): BlankRule => ({
  ...USUAL_BLANK_RULE,
  ...lab?.blanks,
});

export const holdingLimitsOf = ({ lab }: WithLab): readonly HoldingLimit[] =>
  lab?.holding ?? USUAL_HOLDING_LIMITS;

export const clearBelowOf = ({ lab }: WithLab): number => lab?.clearBelow ?? USUAL_CLEAR_BELOW;

type Json = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isAmount = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value) && value >= 0;

const SUM_RULES: readonly unknown[] = ['range', 'zero', 'half the limit', 'the limit'];
const DECIDES: readonly unknown[] = ['reporting limit', 'detection limit'];

const isRules = (value: unknown): value is Partial<SetRules> =>
  isRecord(value) &&
  (value.equalExceeds === undefined || typeof value.equalExceeds === 'boolean') &&
  (value.roundToLevel === undefined || typeof value.roundToLevel === 'boolean') &&
  (value.decides === undefined || DECIDES.includes(value.decides));

const isTexts = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((one) => typeof one === 'string');

const isLimit = (value: unknown): value is HoldingLimit =>
  isRecord(value) &&
  ['name', 'preservation', 'source'].every((key) => typeof value[key] === 'string') &&
  isTexts(value.analytes) &&
  isTexts(value.methods) &&
  (value.toExtraction === null || isAmount(value.toExtraction)) &&
  (value.toAnalysis === null || isAmount(value.toAnalysis));

const isOffset = (value: unknown): value is BoxOffset =>
  Array.isArray(value) && value.length === 2 && value.every((one) => Number.isFinite(one));

/** A part that is there and right, as it is written; nothing where it is not. */
const READERS: Readonly<Record<keyof LabSettings, (value: unknown) => boolean>> = {
  sums: (value) => SUM_RULES.includes(value),
  sets: (value) => isRecord(value) && Object.values(value).every(isRules),
  duplicates: (value) =>
    isRecord(value) &&
    isAmount(value.rpd) &&
    isAmount(value.farFromLimit) &&
    isAmount(value.differenceInLimits),
  blanks: (value) => isRecord(value) && isAmount(value.times) && isAmount(value.timesForUsual),
  holding: (value) => Array.isArray(value) && value.every(isLimit),
  clearBelow: isAmount,
  boxes: (value) => isRecord(value) && Object.values(value).every(isOffset),
};

/**
 * The choices in a descriptor, and the names of parts that cannot be read and
 * take their usual value; null where there are none at all.
 */
export function readLabSettings(given: unknown): {
  readonly lab: LabSettings | null;
  readonly wrong: readonly string[];
} {
  if (given === undefined) return { lab: null, wrong: [] };
  if (!isRecord(given)) return { lab: null, wrong: ['lab'] };
  const parts = Object.entries(READERS).filter(([name]) => given[name] !== undefined);
  const right = parts.filter(([name, reads]) => reads(given[name]));
  const lab: LabSettings = Object.fromEntries(right.map(([name]) => [name, given[name]]));
  return {
    lab: right.length > 0 ? lab : null,
    wrong: parts.filter((part) => !right.includes(part)).map(([name]) => `lab.${name}`),
  };
}

/** The settings of a site with some of these changed; a part of `null` goes back to usual. */
export function withLab(
  { lab }: WithLab,
  change: { readonly [Part in keyof LabSettings]?: LabSettings[Part] | null },
): { readonly lab: LabSettings } {
  const parts = Object.entries({ ...lab, ...change }).filter(([, part]) => part !== null);
  return { lab: Object.fromEntries(parts) };
}

/** Where the box of a location was put by hand; null where it finds its own place. */
export const boxAt = ({ lab }: WithLab, location: string): BoxOffset | null =>
  lab?.boxes && Object.hasOwn(lab.boxes, location) ? (lab.boxes[location] ?? null) : null;

/** The box of a location put somewhere, to a tenth of a px, or back to finding its own place. */
export function withBoxAt(settings: WithLab, location: string, at: BoxOffset | null) {
  const others = Object.entries(settings.lab?.boxes ?? {}).filter(([id]) => id !== location);
  const tenth = (px: number) => Math.round(px * 10) / 10;
  const own: [string, BoxOffset][] = at === null ? [] : [[location, [tenth(at[0]), tenth(at[1])]]];
  const boxes: Record<string, BoxOffset> = Object.fromEntries([...others, ...own]);
  return withLab(settings, { boxes: others.length + own.length > 0 ? boxes : null });
}
