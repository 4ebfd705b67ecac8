import { groupBy } from '../group';
import { direction, directionDoubt, gradient, length, significant, unitText, wind } from '../show';
import { metres } from '../units';
import { leftOutWords, type GaugedScreen } from '../water/event-heads';
import { bare } from './ground-stops';
import { counted, days, listed, said, type Material, type Sentence, type Telling } from './stop';
import { windowAround } from './window';

const windowOf = (gauged: readonly GaugedScreen[]) =>
  windowAround(gauged.map(({ location }) => location));

/** Readings that somebody could ask about: all but those a later one replaced. */
const asked = ({ leftOut }: GaugedScreen) => leftOut !== 'read-again';

const leftOutNotes = (gauged: readonly GaugedScreen[]) =>
  gauged
    .filter((one) => asked(one) && one.leftOut !== null)
    .map(
      ({ screen, leftOut, because }) =>
        `${screen.id} does not count: ${because ?? (leftOut && leftOutWords(leftOut)) ?? ''}`,
    );

function whenGauged({ site, of }: Material): string {
  const event = of.event === null ? undefined : site.events.get(of.event);
  return event ? days(event.first_day, event.last_day) : '';
}

/** Why most of the readings left out do not count; blank where none is. */
function commonest(gauged: readonly GaugedScreen[]): string {
  const reasons = groupBy(
    gauged.flatMap(({ leftOut }) => (leftOut === null || leftOut === 'read-again' ? [] : leftOut)),
    (reason) => reason,
  );
  const [most] = [...reasons].toSorted(([, a], [, b]) => b.length - a.length);
  return most ? ` Of these ${most[1].length}: ${leftOutWords(most[0])}.` : '';
}

/** How high the water stands in the wells that count, and how far below ground. */
export function howHigh(material: Material): Telling {
  const { site, of, heads, flow } = material;
  const { verticalUnit: unit, verticalDatum: datum } = site.settings;
  const here = flow?.gauged ?? heads;
  const counts = here.flatMap(({ screen, location, head, leftOut }) =>
    leftOut === null && head ? [{ screen, location, head }] : [],
  );
  const view = {
    shown: { ...bare(of), heads: true },
    points: 'gauged',
    contours: true,
    window: windowOf(here),
  } as const;
  const sorted = counts.toSorted((a, b) => a.head.value - b.head.value);
  const [low, high] = [sorted[0], sorted.at(-1)];
  if (!low || !high)
    return {
      title: 'How high the water stands is not known',
      sentences: [said('In this event no head that counts was gauged in this zone.')],
      notes: leftOutNotes(here).join('\n'),
      view,
    };
  const depths = counts.flatMap(({ location, head }) =>
    location.ground_elevation ? [location.ground_elevation.value - head.value] : [],
  );
  const left = here.filter((one) => asked(one) && one.leftOut !== null).length;
  const between = [Math.min(...depths), Math.max(...depths)].map((d) => length(metres(d), unit, 1));
  return {
    title: 'How high the water stands',
    sentences: [
      said(
        `${of.zone === null ? 'The water' : `Water of the ${of.zone} zone`} stood between `,
        { text: length(low.head.value, unit, low.head.work.decimals), work: low.head.work },
        ` at ${low.screen.id} and `,
        { text: length(high.head.value, unit, high.head.work.decimals), work: high.head.work },
        ` at ${high.screen.id} (${datum}).`,
      ),
      ...(depths.length > 0
        ? [said(`That is ${between.join(' to ')} below ground at the wells.`)]
        : []),
      said(
        `Gauged ${whenGauged(material)}: ${counted(counts.length, 'head counts', 'heads count')}`,
        left > 0 ? `, ${counted(left, 'reading does not', 'readings do not')}.` : '.',
        commonest(here),
      ),
    ],
    notes: leftOutNotes(here).join('\n'),
    view,
  };
}

/** Which way the water goes and how sure that is; or that it cannot be told, and why. */
export function whichWay(material: Material): Telling {
  const { site, of, flow } = material;
  const percent = `${Math.round(site.settings.confidence * 100)} %`;
  const told = flow?.resolved === true && flow.azimuthGrid !== null;
  return {
    title:
      flow?.azimuthGrid && told
        ? flow.isPlane === false
          ? `On the whole toward the ${wind(flow.azimuthGrid.value)}, but no one arrow tells it`
          : `Water moves toward the ${wind(flow.azimuthGrid.value)}`
        : 'Which way the water goes is not resolved',
    sentences: flow ? waySentences(material, percent) : [said('No event is chosen.')],
    notes: [
      ...(flow?.reason ? [flow.reason] : []),
      ...(flow?.findings ?? []),
      ...(flow ? leftOutNotes(flow.gauged) : []),
    ].join('\n'),
    view: {
      shown: { ...bare(of), heads: true, arrow: true },
      points: 'gauged',
      contours: false,
      window: flow ? windowOf(flow.gauged) : null,
    },
  };
}

/** Beyond this to either side a direction is a guess at a quarter of the compass. Common practice, no source. */
const LOOSE = 45;

function waySentences({ site, of, flow }: Material, percent: string): Sentence[] {
  if (!flow) return [];
  const { azimuthGrid, azimuthHalfWidth: half, gradient: slope, gradientHalfWidth } = flow;
  const unit = unitText(site.settings.verticalUnit);
  const steep: Sentence[] = slope
    ? [
        said(
          `The water surface falls ${significant(100 * slope.value, 2)} ${unit} in 100 ${unit}: gradient `,
          { text: gradient(slope.value), work: slope.work },
          gradientHalfWidth === null ? '.' : ` ± ${significant(gradientHalfWidth, 2)}.`,
        ),
      ]
    : [];
  if (!flow.resolved || azimuthGrid === null)
    return [
      said('No arrow is drawn, because the data do not carry one.'),
      said(plainReason(flow)),
      said(...nearlyInLine(flow)),
    ].filter((sentence) => sentence.some((part) => part !== ''));
  const sure =
    half === null
      ? said('Its error is too large to be given as a ±.')
      : said(
          `Its error, from the readings alone, is ${directionDoubt(half)} at ${percent}`,
          half > LOOSE ? ': a wide fan, drawn on the map.' : '.',
        );
  const flat =
    flow.isPlane === true
      ? said('The heads lie on one plane to within their errors.')
      : flow.isPlane === false
        ? said(
            'The heads do not lie on one plane: the surface bends, or a reading is wrong. In places water goes another way.',
          )
        : said('Whether the heads lie on one plane could not be tested.');
  return [
    said(
      'Direction ',
      { text: direction(azimuthGrid.value), work: azimuthGrid.work },
      ', from ',
      `grid north, from ${counted(flow.fitted.length, 'head')}${of.zone === null ? '' : ` of the ${of.zone} zone`}.`,
    ),
    sure,
    flat,
    ...steep,
  ];
}

/** Why the direction cannot be told, for people who do not test hypotheses; the tests are in the notes. */
function plainReason({ confidence, reason }: NonNullable<Material['flow']>): string {
  const kinds = new Set(confidence?.unresolved.map(({ kind }) => kind));
  if (kinds.has('level')) return 'The heads do not differ.';
  return [
    kinds.has('slope-by-stated-error') || kinds.has('slope-by-scatter')
      ? 'The heads differ by no more than their errors could make.'
      : '',
    kinds.has('lack-of-fit') ? 'They do not lie on one plane.' : '',
    kinds.size === 0 ? (reason ?? '') : '',
  ]
    .filter((words) => words !== '')
    .join(' ');
}

/** A spread ratio under which a direction across the wells rests on very little. Common practice, no source. */
const THIN = 0.1;

const nearlyInLine = ({ plane, fitted }: NonNullable<Material['flow']>) =>
  plane !== null && plane.spread.ratio < THIN
    ? [
        `The wells (${listed(fitted.map(({ gauged }) => gauged.screen.id))}) are nearly in a line; a well off that line would tell it.`,
      ]
    : [''];
