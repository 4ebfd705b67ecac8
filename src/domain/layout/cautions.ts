/**
 * What is said where a mistake can hurt someone. None of it replaces a site
 * safety plan, local codes or a licensed person; all of it is shown with where
 * it comes from.
 */
export type Caution = {
  readonly about:
    | 'drawn lines'
    | 'one-call'
    | 'tolerance zone'
    | 'excavation rule'
    | 'hand clearing'
    | 'overhead lines'
    | 'training'
    | 'sealing'
    | 'licence'
    | 'local codes';
  readonly text: string;
  /** Publication and section; null for a caution about this tool itself. */
  readonly source: string | null;
  /** How the value is known to this project. */
  readonly known: 'read' | 'as quoted' | 'from memory' | 'common practice' | 'by construction';
};

export const CAUTIONS: readonly Caution[] = [
  {
    about: 'local codes',
    text: 'Local codes and the owner of each line come first. These notes are not a safety plan.',
    source: null,
    known: 'by construction',
  },
  {
    about: 'drawn lines',
    text: 'Distances are to drawn lines only. A line nobody drew is not here, and a drawn one may lie elsewhere.',
    source: null,
    known: 'by construction',
  },
  {
    about: 'one-call',
    text: 'Call 811 (United States) or the local one-call service two to three business days before pushing; each state sets its own time. Public lines only: a private locator finds the rest.',
    source: 'State one-call laws',
    known: 'from memory',
  },
  {
    about: 'tolerance zone',
    text: 'Marks are good to 18 in (MD, DC, MS), 24 in (FL, CA and others) or as much as 30 in, from the outside edge of the line. Marks give no depth.',
    source: 'State one-call laws',
    known: 'read',
  },
  {
    about: 'excavation rule',
    text: 'Lines are to be found before the ground is opened. If the utility cannot answer within 24 hours, go on only with caution and detection; when near, find the line by safe means.',
    source: '29 CFR 1926.651(b)',
    known: 'read',
  },
  {
    about: 'hand clearing',
    text: 'Clear by hand, vacuum or air lance to the depth lines are expected at, and not less than 5 ft.',
    source: 'A site plan: practice, not law',
    known: 'common practice',
  },
  {
    about: 'overhead lines',
    text: 'Do not raise the mast where any line is closer than 20 ft unless the legal clearance is known.',
    source: 'A public monitoring report: practice, not law',
    known: 'common practice',
  },
  {
    about: 'training',
    text: 'Workers on hazardous waste sites: 40 hours and 3 days supervised; occasional workers, groundwater monitoring and surveying among them, 24 hours and 1 day; 8 hours every year.',
    source: '29 CFR 1910.120(e)',
    known: 'read',
  },
  {
    about: 'sealing',
    text: 'Every hole is sealed after sampling as the state asks, from the bottom up. A permit is often needed before driving.',
    source: 'NJDEP, Alternative Ground Water Sampling Techniques Guide, 1994, app. I–II',
    known: 'read', // but "from the bottom up", which is from memory
  },
  {
    about: 'licence',
    text: 'Figures and interpretations may have to be made and signed by a licensed engineer or geologist, as in California.',
    source: 'California Business and Professions Code 6735, 7835, 7835.1',
    known: 'read',
  },
];

export const cautionsAbout = (...about: readonly Caution['about'][]): readonly Caution[] =>
  CAUTIONS.filter((caution) => about.includes(caution.about));
