import { fail, ok, type Result } from '../result';
import { metres, type Metres } from '../units';

/** Distance to keep from an overhead power line, with where it comes from. */
export type OverheadRule = {
  readonly distance: Metres;
  readonly rule: string;
  readonly known: 'read' | 'from memory' | 'common practice';
};

/**
 * 29 CFR 1926.1408, Table A, minimum clearance distances: up to and including
 * so many kilovolts, so many feet. It stands in the part on cranes.
 */
export const TABLE_A: readonly {
  readonly upToKilovolts: number;
  readonly distance: Metres;
}[] = [
  { upToKilovolts: 50, distance: metres(10, 'ft') },
  { upToKilovolts: 200, distance: metres(15, 'ft') },
  { upToKilovolts: 350, distance: metres(20, 'ft') },
  { upToKilovolts: 500, distance: metres(25, 'ft') },
  { upToKilovolts: 750, distance: metres(35, 'ft') },
  { upToKilovolts: 1000, distance: metres(45, 'ft') },
];

const INCH = metres(1 / 12, 'ft');

/**
 * Distance by 29 CFR 1926.600(a)(6), said to hold for drilling rigs since
 * 1926.1400(c) leaves dedicated rigs out of the part on cranes: 10 ft to 50 kV
 * and 0.4 in for each kilovolt more. Value from memory, text not seen.
 */
export const rigDistance = (kilovolts: number): Metres =>
  metres(metres(10, 'ft') + Math.max(0, kilovolts - 50) * 0.4 * INCH);

export type NoOverheadRule =
  | { readonly kind: 'ask-the-utility'; readonly overKilovolts: number }
  | { readonly kind: 'no-voltage' }; // less than nothing, or no number

/**
 * The rules that speak of a line, the farthest distance first: the first is the
 * one to keep, unless local codes ask more. A line of unknown voltage is given
 * 20 ft, which the table asks of lines to 350 kV.
 *
 * @param kilovolts  null where nobody knows it
 */
export function overheadRules(
  kilovolts: number | null,
): Result<readonly OverheadRule[], NoOverheadRule> {
  if (kilovolts === null)
    return ok([
      {
        distance: metres(20, 'ft'),
        rule: '29 CFR 1926.1408: voltage not known, at least 20 ft, for lines to 350 kV',
        known: 'read',
      },
    ]);
  if (!(kilovolts >= 0)) return fail({ kind: 'no-voltage' });
  const row = TABLE_A.find(({ upToKilovolts }) => kilovolts <= upToKilovolts);
  if (!row) return fail({ kind: 'ask-the-utility', overKilovolts: 1000 });
  const rules: OverheadRule[] = [
    { distance: row.distance, rule: '29 CFR 1926.1408, Table A (cranes)', known: 'read' },
    {
      distance: rigDistance(kilovolts),
      rule: '29 CFR 1926.600(a)(6): 10 ft to 50 kV and 0.4 in a kilovolt above',
      known: 'from memory',
    },
  ];
  return ok(rules.sort((a, b) => b.distance - a.distance));
}
