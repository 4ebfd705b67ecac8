/**
 * Sums that are themselves screened. A part is looked for under each of its
 * alternatives in turn: one key, or several to be added.
 */
export type SumRule = {
  readonly name: string;
  /** What the sum itself is reported as where the laboratory gives it: a key of `analyteKey`. */
  readonly key: string;
  readonly parts: readonly SumRulePart[];
  /** For a hazard index: the value it is compared with. */
  readonly index: {
    readonly limit: string;
    /** Unit of the divisors of its parts. */
    readonly unit: string;
    /** It is for so many of its parts together. */
    readonly leastDetected: number;
  } | null;
  readonly source: string;
};

export type SumRulePart = {
  readonly name: string;
  readonly either: readonly (readonly string[])[];
  /** What a part of a hazard index is divided by: in the index's unit. */
  readonly divisor?: string;
};

const part = (name: string, ...either: readonly (readonly string[])[]): SumRulePart => ({
  name,
  either,
});

const over = (name: string, cas: string, divisor: string): SumRulePart => ({
  name,
  either: [[cas]],
  divisor,
});

export const TOTAL_XYLENES: SumRule = {
  name: 'Xylenes (total)',
  key: '1330-20-7',
  parts: [
    part('m,p-Xylene', ['179601-23-1'], ['136777-61-2'], ['108-38-3', '106-42-3']),
    part('o-Xylene', ['95-47-6']),
  ],
  index: null,
  source: '40 CFR 141.61(a)(18)',
};

export const TOTAL_TRIHALOMETHANES: SumRule = {
  name: 'Total trihalomethanes',
  key: 'name:total trihalomethanes',
  parts: [
    part('Chloroform', ['67-66-3']),
    part('Bromodichloromethane', ['75-27-4']),
    part('Dibromochloromethane', ['124-48-1']),
    part('Bromoform', ['75-25-2']),
  ],
  index: null,
  source: '40 CFR 141.64(b), sum of four',
};

const HALOACETIC_ACIDS: SumRule = {
  name: 'Haloacetic acids (HAA5)',
  key: 'name:haloacetic acids (haa5)',
  parts: [
    part('Monochloroacetic acid', ['79-11-8']),
    part('Dichloroacetic acid', ['79-43-6']),
    part('Trichloroacetic acid', ['76-03-9']),
    part('Monobromoacetic acid', ['79-08-3']),
    part('Dibromoacetic acid', ['631-64-1']),
  ],
  index: null,
  source: '40 CFR 141.64(b), sum of five (the five from memory)',
};

export const COMBINED_RADIUM: SumRule = {
  name: 'Radium-226 + Radium-228',
  key: 'name:radium-226 + radium-228',
  parts: [part('Radium-226', ['13982-63-3']), part('Radium-228', ['15262-20-1'])],
  index: null,
  source: '40 CFR 141.66(b)',
};

/**
 * The PFAS hazard index, for two or more of the four together: HFPO-DA/10 +
 * PFBS/2000 + PFNA/10 + PFHxS/10 in ng/L, against 1. Its rescission was
 * proposed on 18 May 2026 (docket EPA-HQ-OW-2025-0654); check before use.
 */
export const PFAS_HAZARD_INDEX: SumRule = {
  name: 'PFAS hazard index',
  key: 'name:pfas hazard index',
  parts: [
    over('HFPO-DA', '13252-13-6', '10'),
    over('PFBS', '375-73-5', '2000'),
    over('PFNA', '375-95-1', '10'),
    over('PFHxS', '355-46-4', '10'),
  ],
  index: { limit: '1', unit: 'ng/L', leastDetected: 2 },
  source: '40 CFR 141.61(c)(2); 89 FR 32532, 26 April 2024; rescission proposed 18 May 2026',
};

export const SUM_RULES: readonly SumRule[] = [
  TOTAL_XYLENES,
  TOTAL_TRIHALOMETHANES,
  HALOACETIC_ACIDS,
  COMBINED_RADIUM,
  PFAS_HAZARD_INDEX,
];
