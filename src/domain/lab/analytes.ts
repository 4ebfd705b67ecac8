import { basisInName } from './basis';
import { casOf } from './cas';
import { KNOWN_ANALYTES } from './analyte-list';

/** An analyte by the name the trade knows it by. */
export type Analyte = {
  readonly name: string;
  /** Null for sums and groups that have none. */
  readonly cas: string | null;
  readonly synonyms: readonly string[];
};

/** Names are compared in small letters with single spaces, and otherwise exactly. */
const plain = (name: string) => name.trim().toLowerCase().replace(/\s+/g, ' ');

const byName = new Map<string, Analyte>();
const byCas = new Map<string, Analyte>();
for (const analyte of KNOWN_ANALYTES) {
  if (analyte.cas !== null) byCas.set(analyte.cas, analyte);
  for (const name of [analyte.name, ...analyte.synonyms]) byName.set(plain(name), analyte);
}

/** The analyte of exactly this name or a listed synonym; nothing nearly alike. */
export const analyteNamed = (name: string): Analyte | null => byName.get(plain(name)) ?? null;

export const analyteWithCas = (cas: string): Analyte | null => byCas.get(cas) ?? null;

/** What a row's CAS number and name come to. */
export type AnalyteFacts = {
  /** What results and levels are matched by. */
  readonly key: string;
  /** "N" in "Nitrate (as N)". */
  readonly basisInName: string | null;
};

const facts = new Map<string | null, Map<string, AnalyteFacts>>();
const MOST_KEPT = 20_000;
let keptFacts = 0;

/**
 * An analyte for matching, by the CAS number if its check digit is right, else
 * that of the analyte so named, else "name:" and the exact name.
 */
export function analyteFacts(cas: string | null, name: string): AnalyteFacts {
  const before = facts.get(cas)?.get(name);
  if (before !== undefined) return before;
  const known = analyteNamed(name);
  const made = {
    key: casOf(cas) ?? known?.cas ?? `name:${plain(known?.name ?? name)}`,
    basisInName: basisInName(name),
  };
  if (keptFacts < MOST_KEPT) {
    keptFacts++;
    facts.set(cas, (facts.get(cas) ?? new Map<string, AnalyteFacts>()).set(name, made));
  }
  return made;
}

export const analyteKey = (cas: string | null, name: string): string => analyteFacts(cas, name).key;

/** What is wrong with the naming of an analyte. */
export type AnalyteProblem = {
  readonly column: 'cas' | 'analyte';
  readonly expected: string;
  readonly found: string;
};

/**
 * A CAS number whose check digit fails, or one that belongs to another analyte
 * than the name beside it; null where nothing is wrong that we can know.
 */
export function analyteProblem(cas: string | null, name: string): AnalyteProblem | null {
  const written = cas?.trim() ?? '';
  if (written === '') return null;
  const number = casOf(written);
  if (number === null)
    return { column: 'cas', expected: 'a CAS number with its check digit', found: written };
  const named = analyteNamed(name);
  if (named === null || named.cas === null || named.cas === number) return null;
  return {
    column: 'cas',
    expected: `${named.cas}, the CAS number of ${named.name}`,
    found: written,
  };
}
