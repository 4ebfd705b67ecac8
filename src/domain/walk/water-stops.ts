import { gradient, length, significant, unitText, wind } from '../show';
import { metres } from '../units';
import { leftOutWords, type GaugedScreen } from '../water/event-heads';
import type { Flow } from '../water/flow';
import { bare } from './ground-stops';
import {
  gaugedWith,
  otherWinds,
  overEvents,
  restsOn,
  whatErrorTells,
  wayInEvents,
} from './how-sure';
import { isAskedAbout, leftOutSentence } from './left-out-words';
import { supplyWellSentences } from './supply-wells';
import { counted, days, listed, said, type Material, type Sentence, type Telling } from './stop';
import { windowAround } from './window';

const windowOf = (gauged: readonly GaugedScreen[]) =>
  windowAround(gauged.map(({ location }) => location));

const leftOutNotes = (gauged: readonly GaugedScreen[]) =>
  gauged
    .filter((one) => isAskedAbout(one) && one.leftOut !== null)
    .map(
      ({ screen, leftOut, because }) =>
        `${screen.id} does not count: ${because ?? (leftOut && leftOutWords(leftOut)) ?? ''}`,
    );

/** The days levels that count were read on; those of the event where no reading says. */
function whenGauged({ site, of, heads, flow }: Material): string {
  const read = (flow?.gauged ?? heads)
    .flatMap(({ leftOut, reading }) => (leftOut === null ? (reading.time?.slice(0, 10) ?? []) : []))
    .toSorted();
  const [first, last] = [read[0], read.at(-1)];
  if (first !== undefined && last !== undefined) return days(first, last);
  const event = of.event === null ? undefined : site.events.get(of.event);
  return event ? days(event.first_day, event.last_day) : '';
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
  const left = leftOutSentence(site, here);
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
        `Gauged ${whenGauged(material)}: ${counted(counts.length, 'head is counted', 'heads are counted')}.`,
      ),
      ...(left === '' ? [] : [said(left)]),
      ...supplyWellSentences(site, heads),
    ],
    notes: leftOutNotes(here).join('\n'),
    view,
  };
}

/** Which way the water goes and how sure that is; or that it cannot be told, and why. */
export function whichWay(material: Material): Telling {
  const { site, of, flow } = material;
  const told = flow?.resolved === true && flow.azimuthGrid !== null;
  return {
    title:
      flow?.azimuthGrid && told
        ? flow.isPlane === false
          ? `On the whole toward the ${wind(flow.azimuthGrid.value)}, but no one arrow tells it`
          : `Water moves toward the ${wind(flow.azimuthGrid.value)}${otherWinds(site, flow)}`
        : 'Which way the water goes is not resolved',
    sentences: flow ? waySentences(material) : [said('No event is chosen.')],
    alsoOf: flow ? gaugedWith(site, flow.zone) : [],
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

function waySentences({ site, flow }: Material): Sentence[] {
  if (!flow) return [];
  const { azimuthGrid, azimuthHalfWidth: half } = flow;
  if (!flow.resolved || azimuthGrid === null)
    return [
      said('No arrow is drawn, because the data do not carry one.'),
      said(plainReason(flow)),
      said(...nearlyInLine(flow)),
    ].filter((sentence) => sentence.some((part) => part !== ''));
  return [
    wayInEvents(site, flow),
    half === null
      ? said('The error of the readings is too large to be given as a ±.')
      : said(
          whatErrorTells(site, flow),
          half > LOOSE ? '. That is a wide fan, drawn on the map.' : '.',
        ),
    ...overEvents(site, flow),
    ...restsOn(site, flow),
    ...evenSlope(site, flow),
  ];
}

/** How the water surface falls, and whether one arrow tells it. */
function evenSlope({ settings }: Material['site'], flow: Flow): Sentence[] {
  const { gradient: slope, gradientHalfWidth, isPlane, resolved } = flow;
  const unit = unitText(settings.verticalUnit);
  const even =
    isPlane === true
      ? 'The water surface is one even slope to within those errors'
      : isPlane === false
        ? 'The water surface is no even slope: it bends, or a reading is wrong, and in places water goes another way. On the whole it falls'
        : 'Whether the water surface is one even slope could not be tested. As one it falls';
  if (!slope || !resolved) return [];
  return [
    said(
      `${even}${isPlane === true ? ', falling' : ''} ${significant(100 * slope.value, 2)} ${unit} in 100 ${unit} (gradient `,
      { text: gradient(slope.value), work: slope.work },
      gradientHalfWidth === null ? ').' : ` ± ${significant(gradientHalfWidth, 2)}).`,
    ),
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
    kinds.has('lack-of-fit') ? 'The water surface they make is no even slope.' : '',
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
