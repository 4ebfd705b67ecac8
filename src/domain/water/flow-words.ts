import { length, significant, usualDecimals } from '../show';
import type { Site } from '../site/site';
import type { PlaneProblem, Plane } from './plane';
import type { Confidence, PlaneTest, Unresolved } from './plane-confidence';

const count = (n: number, what: string) => `${n} ${what}${n === 1 ? '' : 's'}`;

/** Why no plane can be laid through the heads, in a sentence. */
export function problemWords(problem: PlaneProblem): string {
  switch (problem.kind) {
    case 'too-few-wells':
      return problem.have === 0
        ? 'No head counts in this zone at this event; three are needed.'
        : `Only ${count(problem.have, 'head')} count${problem.have === 1 ? 's' : ''} in this zone at this event; three are needed.`;
    case 'wells-in-a-line':
      return problem.spread.places < 3
        ? `The heads are at ${count(problem.spread.places, 'place')}; three are needed.`
        : 'The wells are in a line: heads along a line say nothing of the fall across it.';
    case 'not-a-number':
      return `The head of ${problem.ids.join(', ')} is not a number.`;
    case 'no-error-stated':
      return `No error is stated for the head of ${problem.ids.join(', ')}.`;
  }
}

/** What a plane rests on where no screen of the site has a zone. */
export const unnamedZoneWords = (heads: number) =>
  `No screen of the site has a zone: the ${heads} heads are taken to be of one, which nobody has said.`;

/** Why there is no plane where no zone is named and the screens are of more than one depth. */
export const DEPTHS_APART_WORDS =
  'No screen of the site has a zone, and those gauged lie at depths apart: they make no plane together.';

const number = (value: number) => significant(value, value >= 1000 ? 4 : 3);

const testWords = ({ distribution, degreesOfFreedom, statistic, critical }: PlaneTest) =>
  `${distribution === 'F' ? 'F' : 'χ²'}(${degreesOfFreedom.join(', ')}) is ${statistic === null ? 'without bound' : number(statistic)} against ${number(critical)}`;

function whyUnresolved(reason: Unresolved): string {
  switch (reason.kind) {
    case 'level':
      return 'The heads do not differ: the surface is level and has no direction.';
    case 'slope-by-stated-error':
      return `The slope is no more than the stated errors of the heads could make: ${testWords(reason)}.`;
    case 'slope-by-scatter':
      return `The slope is no more than the scatter of the heads about the plane could make: ${testWords(reason)}.`;
    case 'lack-of-fit':
      return `The heads do not lie on one plane: ${testWords(reason)}.`;
  }
}

/** Why the direction cannot be told, in sentences. */
export const unresolvedWords = ({ unresolved }: Confidence) =>
  unresolved.map(whyUnresolved).join(' ');

/** A spread ratio under which a direction across the wells rests on very little. Common practice, no source. */
const THIN = 0.1;

/** What was tested and found, in sentences; not resolved and not a plane are two things. */
export function findingsOn(site: Site, plane: Plane, confidence: Confidence): string[] {
  const unit = site.settings.verticalUnit;
  const { slopeTests, lackOfFit, isPlane, resolved, governing, level, simulate } = confidence;
  const percent = `${Math.round(level * 100)} %`;
  return [
    ...(resolved
      ? [`The direction is resolved at ${percent}: ${slopeTests.map(testWords).join('; ')}.`]
      : []),
    ...(lackOfFit && isPlane === true
      ? [`The heads lie on one plane to within their errors: ${testWords(lackOfFit)}.`]
      : []),
    ...(lackOfFit && isPlane === false
      ? [
          `The heads do not lie on one plane to within their errors: ${testWords(lackOfFit)}. The surface is curved or a reading is wrong, and one arrow does not tell it.`,
        ]
      : []),
    ...(lackOfFit === null && plane.ids.length === 3
      ? ['Three heads always make a plane: whether it is one cannot be tested.']
      : []),
    ...(plane.s === null
      ? []
      : [
          `Scatter about the plane ${length(plane.s, unit, usualDecimals(unit) + 1)}; the ± rests on ${governing === 'stated' ? 'the stated errors' : 'the scatter'}.`,
        ]),
    ...(plane.spread.ratio < THIN
      ? [
          `The wells are nearly in a line: their spread across it is ${significant(100 * plane.spread.ratio, 2)} % of that along it.`,
        ]
      : []),
    ...(simulate && resolved
      ? ['The error of the direction is too large for a simple ±; it has to be simulated.']
      : []),
  ];
}
