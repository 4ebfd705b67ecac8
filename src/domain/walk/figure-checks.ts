import type { ReviewedFinding, Severity } from '../findings/finding';
import { metres } from '../units';
import type { FigureForm } from './figure';
import type { FigureOf } from './figure-notes';
import { restsOn } from './how-sure';
import { counted, listed, plain, type Window } from './stop';

/** Something a reviewer would send the sheet back for, or look at. */
export type SheetFinding = { readonly severity: Severity; readonly says: string };

/** Most a contour interval may be: 2 ft (US EPA 1992 §4; Okla. Admin. Code 252:515-3-75). */
const MOST_INTERVAL = metres(2, 'ft');

const lowerFirst = (words: string) => words.charAt(0).toLowerCase() + words.slice(1);

/** What is not settled before a sheet goes out: the elements a reviewer looks for, and the usual mistakes. */
export function sheetFindings(
  form: FigureForm,
  figure: FigureOf,
  {
    extent,
    findings,
    wordsCut,
    without = [],
    cut = [],
  }: {
    readonly extent: Window;
    readonly findings: readonly ReviewedFinding[];
    /** Whether the words do not fit their column. */
    readonly wordsCut: boolean;
    /** Points that found no room for their box, or no ground in the section. */
    readonly without?: readonly string[];
    /** What else of the drawing does not fit the sheet, in words. */
    readonly cut?: readonly string[];
  },
): SheetFinding[] {
  const { site, shown, heads, flow, interval } = figure;
  const serious = (says: string): SheetFinding => ({ severity: 'serious', says });
  const caution = (says: string): SheetFinding => ({ severity: 'caution', says });
  const note = (says: string): SheetFinding => ({ severity: 'note', says });
  const event = shown.event === null ? undefined : site.events.get(shown.event);
  const off = [...site.locations.values()].flatMap(({ id, easting, northing }) =>
    easting &&
    northing &&
    (easting.value < extent.west ||
      easting.value > extent.east ||
      northing.value < extent.south ||
      northing.value > extent.north)
      ? [id]
      : [],
  );
  const later = heads.flatMap(({ screen, leftOut }) =>
    leftOut === null && event && (screen.set_time ?? '').slice(0, 10) > event.last_day
      ? [screen.id]
      : [],
  );
  const unsettled = findings.filter(
    ({ severity, accepted }) => severity === 'serious' && accepted === null,
  );
  const blank = (
    [
      ['figure number', form.number],
      ['project', form.project],
      ['preparer', form.preparer],
      ['reviewer', form.reviewer],
      ['revision', form.revision],
      ['title', form.title],
    ] as const
  ).flatMap(([name, text]) => (text.trim() === '' ? [name] : []));
  return [
    ...(event ? [] : [serious('No event: the sheet carries no date of gauging.')]),
    ...(later.length > 0 ? [serious(`Counted, but set after the event: ${listed(later)}.`)] : []),
    ...(unsettled.length > 0
      ? [serious(`${counted(unsettled.length, 'serious finding')} of the site not settled.`)]
      : []),
    ...(wordsCut ? [serious('The words do not fit: choose a larger sheet, or show less.')] : []),
    ...cut.map(serious),
    ...(without.length > 0
      ? [
          caution(
            form.kind === 'section'
              ? `Not in the section, for want of a ground elevation: ${listed(without)}.`
              : `No room for the results of ${listed(without)}: choose a larger scale or sheet.`,
          ),
        ]
      : []),
    ...(form.kind === 'map' && off.length > 0 ? [caution(`Off the sheet: ${listed(off)}.`)] : []),
    ...(blank.length > 0 ? [caution(`Blank in the title block: ${blank.join(', ')}.`)] : []),
    ...(form.preparer.trim() !== '' && form.preparer.trim() === form.reviewer.trim()
      ? [caution('Prepared and reviewed by the same person.')]
      : []),
    ...(form.kind === 'map' &&
    interval !== null &&
    metres(interval, site.settings.verticalUnit) > MOST_INTERVAL
      ? [caution('The contour interval is over 2 ft, more than reviewers take.')]
      : []),
    ...(form.kind === 'map' && shown.arrow && flow && !flow.resolved
      ? [caution('The direction is not resolved: the sheet has no arrow, and says so.')]
      : []),
    ...(form.kind === 'map' && flow?.isPlane === false && shown.arrow
      ? [caution('The heads do not lie on one plane: one arrow does not tell the surface.')]
      : []),
    ...(form.kind === 'map' && shown.arrow && flow?.resolved
      ? restsOn(site, flow).map((sentence) =>
          caution(`The direction: ${lowerFirst(plain(sentence))}`),
        )
      : []),
    ...(site.settings.verticalDatum.trim() === '' ? [serious('No vertical datum is named.')] : []),
    ...(site.settings.validated ? [] : [note('Stamped PRELIMINARY, NOT VALIDATED.')]),
    ...(form.kind === 'map' && site.grid.convergence === null
      ? [note('True north is not known: the grid is tied to nothing.')]
      : []),
    note(
      'A seal or signature, where the law asks for one, is put on by whoever holds the licence.',
    ),
  ];
}
