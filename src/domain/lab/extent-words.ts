import { significant, unitText, type PrintUnits } from '../show';
import { inUnits } from '../units';
import { reach } from '../water/surface/variogram-model';
import { BAND_EDGES, FEW_POINTS, type Contradiction, type Extent } from './extent';
import type { ExtentPoints } from './extent-points';
import { VERDICT_WORDS } from './verdict';

/** "P48 exceeds, and the outline leaves it out." */
export const contradictionWords = ({ point, kept }: Contradiction): string =>
  kept === 'outside'
    ? `${point.id} exceeds, and the outline leaves it out.`
    : `${point.id} does not exceed, and the outline takes it in.`;

const percent = (chance: number) => `${Math.round(chance * 100)} %`;

/** The bands in words, the least likely first. */
export const BAND_WORDS: readonly string[] = [
  `Chance of exceeding under ${percent(BAND_EDGES[0])}`,
  `Chance ${percent(BAND_EDGES[0])} to ${percent(BAND_EDGES[1])}`,
  `Chance ${percent(BAND_EDGES[1])} to ${percent(BAND_EDGES[2])}`,
  `Chance over ${percent(BAND_EDGES[2])}`,
];

const METHOD_WORDS: Readonly<Record<Extent['method'], string>> = {
  'indicator kriging':
    'Indicator kriging: each point is 1 where it exceeds and 0 where it does not, and the chance between them is kriged.',
  'log kriging':
    'Log kriging: logarithms of the concentrations are kriged, a non-detect at its limit, and the chance follows from the kriging error.',
};

/** Where the extent goes on beyond the data, as a sentence; null where it does not. */
export const openSentence = ({ open }: Pick<Extent, 'open'>): string | null =>
  open.length === 0
    ? null
    : `Open at ${open.map(({ id }) => id).join(', ')}: ${open.length === 1 ? 'it exceeds' : 'they exceed'} on the edge of the data, and how much further it goes is not known.`;

/** How the outline was made and how well it does, as sentences. */
export function extentSentences(
  { method, model, how, toldRightly, toldOf }: Extent,
  { points }: Pick<ExtentPoints, 'points'>,
  units: PrintUnits,
): string[] {
  const far = reach(model);
  const range =
    far === null
      ? ''
      : `, range ${significant(inUnits(far, units.grid), 2)} ${unitText(units.grid)}`;
  const made = how === 'fitted' ? 'fitted to the points' : how === 'given' ? 'as given' : 'assumed';
  return [
    `${METHOD_WORDS[method]} Variogram ${model.shape}${range}, ${made}.`,
    `Each point left out in turn: the others tell ${toldRightly} of ${toldOf} rightly.`,
    ...(points.length < FEW_POINTS
      ? [`${points.length} points are few: read the outline as a sketch.`]
      : []),
  ];
}

/** What counts neither way, by verdict: "Limit exceeds level (cannot tell): GP-4, GP-9." */
export function unknownSentences({ unknown }: Pick<ExtentPoints, 'unknown'>): string[] {
  const verdicts = [...new Set(unknown.map(({ verdict }) => verdict))];
  return verdicts.map((verdict) => {
    const ids = unknown.flatMap((one) => (one.verdict === verdict ? [one.id] : []));
    const words = VERDICT_WORDS[verdict];
    return `${words.charAt(0).toUpperCase()}${words.slice(1)}: ${ids.join(', ')}.`;
  });
}
