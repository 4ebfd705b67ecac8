/**
 * What a concentration counts: nitrate as nitrogen (N) or as the ion (NO3) are
 * different numbers for the same water, and one is never compared with the
 * other. Where a result or a level does not say which, it cannot be compared.
 */
const ATOMIC_WEIGHT = { N: 14.0067, O: 15.9994, H: 1.00794 }; // IUPAC 1999 (value from memory)

/** Grams of nitrogen in a gram of the ion; for explaining, never for comparing. */
export const NITROGEN_SHARE = {
  NO3: ATOMIC_WEIGHT.N / (ATOMIC_WEIGHT.N + 3 * ATOMIC_WEIGHT.O),
  NO2: ATOMIC_WEIGHT.N / (ATOMIC_WEIGHT.N + 2 * ATOMIC_WEIGHT.O),
  NH4: ATOMIC_WEIGHT.N / (ATOMIC_WEIGHT.N + 4 * ATOMIC_WEIGHT.H),
} as const;

const IN_NAME =
  /\bas[ -](N|P|S|Si|NO3|NO2|NH3|NH4|PO4|SO4|CaCO3)\b|\b(?:NO3|NO2|NH3|NH4|NOx)-(N)\b|\b(?:nitrate|nitrite|ammonia|ammonium)-(N)\b|\b(?:phosphate|orthophosphate|PO4)-(P)\b/i;

/** The basis an analyte's name states: "N" in "Nitrate (as N)", "Nitrate-N", "NO3-N"; or null. */
export function basisInName(analyte: string): string | null {
  const match = IN_NAME.exec(analyte);
  return match?.slice(1).find(Boolean)?.toUpperCase() ?? null;
}

/**
 * Analytes whose numbers mean nothing without their basis, by the name without
 * it, in small letters, or by CAS number.
 */
const NEEDS_BASIS = new Set([
  '14797-55-8', // nitrate
  '14797-65-0', // nitrite
  '14265-44-2', // orthophosphate
  '14798-03-9', // ammonium
  '7664-41-7', // ammonia
  'name:nitrate + nitrite',
]);

export const needsBasis = (analyteKey: string) => NEEDS_BASIS.has(analyteKey);

/** What a unit and a name that contradict each other come to. */
export const CONFLICT = 'conflict';

/** The basis the unit and the name agree on; `CONFLICT` where they do not. */
export const basisOf = (inUnit: string | null, inName: string | null): string | null =>
  inUnit !== null && inName !== null && inUnit !== inName ? CONFLICT : (inUnit ?? inName);
