import { toGround } from '../grid';
import { fixed, length, usualDecimals } from '../show';
import type { Site } from '../site/site';
import { metres } from '../units';
import { decisionOn, signedWords } from './decided';
import { leftOutWords, type GaugedScreen } from './event-heads';
import type { Flow } from './flow';
import { offTheOthers, type OffPlane } from './off-plane';

/** A fact of the sheet's head: what it is, and what it is here. */
export type SheetFact = readonly [what: string, is: string];

/** What the figures of a sheet rest on, in the order they are printed. */
export function sheetFacts(site: Site, flow: Flow): SheetFact[] {
  const { settings, grid, events } = site;
  const event = events.get(flow.event);
  const unit = settings.verticalUnit;
  const metre = toGround(metres(1), grid);
  return [
    ['Event', event?.title ?? flow.event],
    [
      'Gauged',
      event
        ? event.first_day === event.last_day
          ? event.first_day
          : `${event.first_day} to ${event.last_day}`
        : 'no days recorded',
    ],
    ['Zone', flow.zone ?? 'none given'],
    ['Grid', `${settings.grid.name}, directions from grid north`],
    [
      'Convergence',
      flow.convergence === null
        ? 'not known: the grid is tied to nothing'
        : `${fixed(flow.convergence, 3)}°; true = grid + convergence`,
    ],
    [
      'Ground distance',
      grid.combinedFactor === null
        ? 'taken as the grid distance'
        : `grid distance × ${fixed(metre, 8)} (1 / combined factor)`,
    ],
    ['Vertical datum', `${settings.verticalDatum}, never converted`],
    [
      'Error of a head',
      `${length(settings.headError, unit, usualDecimals(unit) + 1)}, one standard error, where a point states none of its own`,
    ],
    ['Confidence', `${fixed(100 * settings.confidence, 0)} %`],
    [
      'Longest gauging accepted',
      `${fixed(settings.gaugingSpread, Number.isInteger(settings.gaugingSpread) ? 0 : 1)} h, the reviewer’s own`,
    ],
  ];
}

/** A level with the reason it counts or does not, as somebody wrote it, with who decided and when. */
export type Reasoned = { readonly one: GaugedScreen; readonly why: string };

const decidedBy = (site: Site, { screen, reading }: GaugedScreen): string => {
  const decision = decisionOn(site, screen.id, reading.event);
  return decision ? signedWords(decision) : '';
};

/** Levels that do not count, each with its reason in words and how far it is off the plane; null where it has no head. */
export const exclusions = (
  site: Site,
  flow: Flow,
): (Reasoned & { readonly off: OffPlane | null })[] =>
  flow.gauged.flatMap((one) =>
    one.leftOut === null
      ? []
      : [
          {
            one,
            off: offTheOthers(site, flow, one),
            why: `${leftOutWords(one.leftOut)}${one.because ? `: ${one.because}` : ''}${one.leftOut === 'excluded' ? decidedBy(site, one) : ''}`,
          },
        ],
  );

/** Levels that count because a person decided so, each with the reason written. */
export const inclusions = (site: Site, { gauged }: Flow): Reasoned[] =>
  gauged.flatMap((one) =>
    one.leftOut === null && one.because
      ? [{ one, why: `${one.because}${decidedBy(site, one)}` }]
      : [],
  );

/** What stands on every sheet. */
export const SHEET_CAUTIONS: readonly string[] = [
  'Calculated from what was entered. It is not a survey, and no substitute for the judgement of a licensed professional; local codes and the agency’s own rules come first.',
  'A direction is that of the fall of head in the zone at the time of gauging. In ground that conducts differently in different directions, in fractures and along layers, water moves otherwise.',
  'Levels at tidal or pumped places are of the moment only; a net direction needs filtered means.',
];

/** How much of the tables the sheet rests on. */
export function rowsWords({ accounts, decisions }: Site): string {
  const all = Object.values(accounts);
  const rows = all.reduce((sum, account) => sum + account.rows, 0);
  const refused = all.reduce((sum, account) => sum + account.refused, 0);
  return `${rows - refused} of ${rows} rows read, ${decisions.length} decision${decisions.length === 1 ? '' : 's'} in the table of decisions`;
}
