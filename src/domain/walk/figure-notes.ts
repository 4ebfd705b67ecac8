import { groupBy } from '../group';
import { direction, directionDoubt, gradient, length, significant, unitText } from '../show';
import type { Site } from '../site/site';
import type { Shown } from '../site/shown';
import { metres } from '../units';
import { leftOutWords, type GaugedScreen } from '../water/event-heads';
import type { Flow } from '../water/flow';
import { scaleWords, type FigureForm } from './figure';
import { preliminary } from './first-walk';
import { restsOn } from './how-sure';
import { days, plain as wordsIn } from './stop';

/** What a figure is made of, beside the form. */
export type FigureOf = {
  readonly site: Site;
  readonly shown: Shown;
  readonly heads: readonly GaugedScreen[];
  readonly flow: Flow | null;
  /** Contour interval in the site's vertical unit; null where no contours are drawn. */
  readonly interval: number | null;
  /** Of the words for true north: "True north is 0.37° west of it". */
  readonly north: string;
};

/** A paragraph of the sheet's words. */
export type Note = {
  readonly manner: 'stamp' | 'title' | 'strong' | 'plain';
  readonly text: string;
};

const plain = (text: string): Note => ({ manner: 'plain', text });

/** Every head that is not counted, each reason once with the screens it holds for. */
export function excludedNotes(heads: readonly GaugedScreen[]): string[] {
  const out = heads.filter(({ leftOut }) => leftOut !== null && leftOut !== 'read-again');
  return [
    ...groupBy(out, ({ leftOut, because }) => because ?? (leftOut && leftOutWords(leftOut))),
  ].map(([reason, here]) => `${here.map(({ screen }) => screen.id).join(', ')}: ${reason ?? ''}`);
}

/** What stands at the top of the words: what the sheet shows, of when. */
export function headNotes(form: FigureForm, { site, shown }: FigureOf): Note[] {
  const event = shown.event === null ? undefined : site.events.get(shown.event);
  const stamp = preliminary(site);
  return [
    ...(stamp === null ? [] : [{ manner: 'stamp', text: stamp } as const]),
    { manner: 'title', text: form.title },
    { manner: 'strong', text: site.settings.title },
    plain(
      event
        ? `${event.title ?? event.id}: ${days(event.first_day, event.last_day)}`
        : 'No event is shown',
    ),
    ...(shown.zone === null ? [] : [plain(`Zone: ${shown.zone}`)]),
    ...(shown.verdicts && shown.levelSet !== null
      ? [plain(`Screening levels: ${shown.levelSet}`)]
      : []),
  ];
}

/** What stands under the legend: how the sheet was made and what it does not say. */
export function footNotes(form: FigureForm, figure: FigureOf): Note[] {
  const { site, shown, heads, interval, north } = figure;
  const { settings } = site;
  const last = plain('Source: the tables of the site package. Interpretive. Not a survey.');
  const datum = `Elevations ${settings.verticalDatum}, ${unitText(settings.verticalUnit)}.`;
  if (form.kind === 'table') return [plain(datum), last];
  if (form.kind === 'section')
    return [
      plain(
        `Scale ${scaleWords(form.ratio, form.scaleUnit)} along the line, on the ground, printed at full size. ${datum}`,
      ),
      plain('Between the points nothing was seen: layers are not joined.'),
      last,
    ];
  const here = heads.filter(({ screen }) => screen.zone === shown.zone || screen.zone === null);
  const excluded = shown.heads ? excludedNotes(here) : [];
  return [
    plain(
      `Grid ${settings.grid.name}, ${unitText(settings.grid.unit)}. Grid north is up. ${north && `${north}. `}${datum}`,
    ),
    plain(`Scale ${scaleWords(form.ratio, form.scaleUnit)} on the ground, printed at full size.`),
    ...(interval === null
      ? []
      : [
          plain(
            `Contour interval ${length(metres(interval, settings.verticalUnit), settings.verticalUnit)}, interpolated between wells that count; dashed where inferred.`,
          ),
        ]),
    ...flowNotes(figure),
    ...(excluded.length > 0
      ? [{ manner: 'strong', text: 'Heads not counted' } as const, ...excluded.map(plain)]
      : []),
    last,
  ];
}

function flowNotes({ site, shown, flow }: FigureOf): Note[] {
  if (!shown.arrow || !flow) return [];
  const percent = `${Math.round(site.settings.confidence * 100)} %`;
  if (!flow.resolved || !flow.azimuthGrid || !flow.gradient)
    return [plain(`Direction of flow not resolved at ${percent}: no arrow is drawn.`)];
  const { azimuthHalfWidth: half, gradientHalfWidth: slope } = flow;
  return [
    plain(
      `Flow ${direction(flow.azimuthGrid.value)}${half === null ? '' : ` ${directionDoubt(half)}`} from grid north, gradient ${gradient(flow.gradient.value)}${slope === null ? '' : ` ± ${significant(slope, 2)}`} at ${percent}: plane by least squares through ${flow.fitted.length} heads.`,
    ),
    ...restsOn(site, flow).map((sentence) => plain(wordsIn(sentence))),
  ];
}

/** The lines of the title block, name and content. */
export const titleBlock = (form: FigureForm): readonly (readonly [string, string])[] => [
  ['Project', form.project],
  ['Prepared by', form.preparer],
  ['Reviewed by', form.reviewer],
  ['Revision', form.revision],
  ['Figure', form.number],
];
