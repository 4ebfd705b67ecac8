/** A kind of sample, as the table of samples has it. */
export type SampleKind =
  'field sample' | 'field duplicate' | 'trip blank' | 'equipment blank' | 'field blank';

/** What samples that check the sampling are often called (common practice, no source). */
const NAMES: readonly (readonly [RegExp, SampleKind])[] = [
  [/\btrip[\s_-]*(?:blank|blk)\b|^tb(?:[\s_-]?\d|[\s_-]|$)|^trip[\s_-]?\d*$/i, 'trip blank'],
  [/\b(?:equip(?:ment)?|rinsate|rinse)[\s_-]*(?:blank|blk|rinsate)?\b|^(?:eb|erb?|rb)(?:[\s_-]?\d|[\s_-]|$)/i, 'equipment blank'], // prettier-ignore
  [/\b(?:field|ambient)[\s_-]*(?:blank|blk)\b|^fb(?:[\s_-]?\d|[\s_-]|$)/i, 'field blank'],
  [/\bdup(?:licate|e)?s?(?![a-z])|^(?:fd|bd|fdup)(?:[\s_-]?\d|[\s_-]|$)|\bblind\b/i, 'field duplicate'], // prettier-ignore
];

/** The kind a sample's name speaks for: a trip blank for "TB-01", null for "MW-3". */
export const kindOfName = (name: string): SampleKind | null =>
  NAMES.find(([words]) => words.test(name.trim()))?.[1] ?? null;

/** Kinds of sample that are of no location. */
export const BLANKS: ReadonlySet<string> = new Set<SampleKind>([
  'trip blank',
  'equipment blank',
  'field blank',
]);
