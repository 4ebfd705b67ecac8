import type { LengthUnit } from '../../domain/units';

/** Why a grid can't be opened, in the parts a sentence is made from. */
export type GridProblem =
  | { readonly kind: 'nothing-given' }
  | { readonly kind: 'geographic'; readonly found: string }
  | { readonly kind: 'geocentric'; readonly found: string }
  | { readonly kind: 'web-mercator'; readonly found: string }
  | { readonly kind: 'unknown-code'; readonly code: string }
  | { readonly kind: 'not-a-definition'; readonly found: string }
  | { readonly kind: 'well-known-text'; readonly found: string }
  | { readonly kind: 'unknown-projection'; readonly found: string }
  | { readonly kind: 'unknown-parameter'; readonly parameter: string }
  | { readonly kind: 'repeated-parameter'; readonly parameter: string }
  | { readonly kind: 'bad-value'; readonly parameter: string; readonly found: string }
  | { readonly kind: 'other-axes'; readonly found: string }
  | { readonly kind: 'unit-not-handled'; readonly found: string }
  | {
      readonly kind: 'unit-differs';
      readonly name: string;
      readonly expected: LengthUnit;
      readonly found: LengthUnit;
      /** The same zone in the unit asked for, where the list has one. */
      readonly instead: string | null;
    }
  | { readonly kind: 'code-and-projection-differ'; readonly code: string }
  | { readonly kind: 'does-not-compute'; readonly found: string };

const UNIT_NAMES: Record<LengthUnit, string> = {
  m: 'metres',
  ft: 'international feet',
  'us-ft': 'US survey feet',
};

const CHOOSE = 'Choose a projected grid, such as a State Plane or UTM zone.';

const quoted = (found: string) => `“${found.length > 80 ? `${found.slice(0, 77)}…` : found}”`;

/** One or two sentences: what is wrong with the grid, and what to do. */
export function gridProblemSentence(problem: GridProblem): string {
  switch (problem.kind) {
    case 'nothing-given':
      return 'No grid is given: neither a code nor a projection string.';
    case 'geographic':
      return `${problem.found} is longitude and latitude: a degree is no distance, so heads and gradients can’t be worked out in it. ${CHOOSE}`;
    case 'geocentric':
      return `${problem.found} is earth-centred coordinates, not a plane grid. ${CHOOSE}`;
    case 'web-mercator':
      return `${problem.found} is Web Mercator: at 38° north its distances are 27 % too long, and gradients come out 21 % too small. ${CHOOSE}`;
    case 'unknown-code':
      return `${quoted(problem.code)} is not in the list of grids this app carries. Give its projection string instead.`;
    case 'not-a-definition':
      return `${quoted(problem.found)} is neither an EPSG code nor a projection string that starts with +proj=.`;
    case 'well-known-text':
      return 'This is well-known text (WKT) without an EPSG code that this app carries. Give the EPSG code or a projection string that starts with +proj=.';
    case 'unknown-projection':
      return `The projection ${quoted(problem.found)} is not one this app can work in.`;
    case 'unknown-parameter':
      return `The projection string has ${quoted(`+${problem.parameter}`)}, which this app does not know; it would rather not leave it out.`;
    case 'repeated-parameter':
      return `The projection string gives ${quoted(`+${problem.parameter}`)} twice.`;
    case 'bad-value':
      return `In the projection string, ${quoted(`+${problem.parameter}`)} can’t be ${quoted(problem.found)}.`;
    case 'other-axes':
      return `The projection string asks for axes ${quoted(problem.found)}; this app reads easting then northing (enu).`;
    case 'unit-not-handled':
      return `The projection is in ${quoted(problem.found)}; this app handles metres, international feet and US survey feet.`;
    case 'unit-differs':
      return `${problem.name} is in ${UNIT_NAMES[problem.expected]}, but the site says ${UNIT_NAMES[problem.found]}. ${
        problem.instead === null
          ? 'Change one of them.'
          : `The same zone in ${UNIT_NAMES[problem.found]} is ${problem.instead}.`
      }`;
    case 'code-and-projection-differ':
      return `The projection string given with ${problem.code} is not that system: the two put the same place at different coordinates. Keep one of them.`;
    case 'does-not-compute':
      return `The projection ${quoted(problem.found)} gives no coordinates at its own origin: a parameter is missing or impossible.`;
  }
}
