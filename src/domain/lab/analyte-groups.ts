import { analyteKey, analyteNamed } from './analytes';

/**
 * Groups of analytes a reader asks for together. Membership is the trade's
 * usage (common practice, no source); none of these is a sum with a level.
 */
const MEMBERS: Readonly<Record<string, readonly string[]>> = {
  BTEX: ['Benzene', 'Toluene', 'Ethylbenzene', 'Xylenes (total)', 'm,p-Xylene', 'o-Xylene'],
  'Chlorinated ethenes': [
    'Tetrachloroethylene',
    'Trichloroethylene',
    'cis-1,2-Dichloroethylene',
    'trans-1,2-Dichloroethylene',
    '1,1-Dichloroethylene',
    'Vinyl chloride',
  ],
  'Chlorinated ethanes': [
    '1,1,1-Trichloroethane',
    '1,1,2-Trichloroethane',
    '1,1-Dichloroethane',
    '1,2-Dichloroethane',
    'Chloroethane',
  ],
  Trihalomethanes: ['Chloroform', 'Bromodichloromethane', 'Dibromochloromethane', 'Bromoform'],
  Metals: [
    'Antimony',
    'Arsenic',
    'Barium',
    'Beryllium',
    'Cadmium',
    'Chromium',
    'Copper',
    'Iron',
    'Lead',
    'Manganese',
    'Mercury',
    'Nickel',
    'Selenium',
    'Thallium',
    'Zinc',
  ],
  PFAS: ['PFOA', 'PFOS', 'PFHxS', 'PFNA', 'HFPO-DA', 'PFBS'],
};

export const ANALYTE_GROUPS: readonly string[] = Object.keys(MEMBERS);

const keys = new Map<string, ReadonlySet<string>>();

/** What the members of a group are matched by; nothing for a name that is no group. */
export function keysOfGroup(group: string): ReadonlySet<string> {
  const before = keys.get(group);
  if (before) return before;
  const made = new Set(
    (MEMBERS[group] ?? []).map((name) => analyteKey(analyteNamed(name)?.cas ?? null, name)),
  );
  keys.set(group, made);
  return made;
}
