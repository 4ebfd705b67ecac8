import { reportedText } from '../lab/cross-tab';
import type { JudgedResult } from '../lab/site-results';
import { VERDICT_WORDS } from '../lab/verdict';
import { direction, fixed, gradient, length, lengthNumber, significant, unitText } from '../show';
import type { Site } from '../site/site';
import { tableOf, type Table } from '../site/table';
import type { Written } from '../site/schema';
import type { LengthUnit } from '../units';
import { leftOutWords, type GaugedScreen } from '../water/event-heads';
import { flowsOverTime } from '../water/over-time';
import { intervalOf, noIntervalWords } from '../water/screen-interval';
import { levelBeside } from './level-words';

/** A table to be read by people, printed, or opened in a spreadsheet. */
export type ReportTable = {
  readonly name: 'heads' | 'flow' | 'results' | 'pushes';
  readonly title: string;
  readonly columns: readonly { readonly name: string; readonly number?: true }[];
  readonly rows: readonly (readonly string[])[];
};

const written = (of: Written<number, LengthUnit> | null) =>
  of ? `${of.text} ${unitText(of.unit)}` : '';
const minute = (time: string | null) => time?.replace('T', ' ') ?? '';

/** Every reading of an event with its head, and why those that do not count do not. */
export function headsTable(site: Site, heads: readonly GaugedScreen[]): ReportTable {
  const unit = site.settings.verticalUnit;
  return {
    name: 'heads',
    title: 'Heads',
    columns: [
      { name: 'Screen' },
      { name: 'Zone' },
      { name: 'Read' },
      { name: 'Measuring point' },
      { name: 'Depth to water' },
      { name: `Head, ${unitText(unit)} ${site.settings.verticalDatum}`, number: true },
      { name: 'Counts' },
    ],
    rows: heads.map(({ screen, reading, measuringPoint, head, leftOut, because }) => [
      screen.id,
      screen.zone ?? 'none',
      minute(reading.time),
      measuringPoint?.id ?? '',
      written(reading.depth_to_water) || reading.status,
      head ? lengthNumber(head.value, unit, head.work.decimals) : '',
      leftOut === null
        ? because
          ? `yes: ${because}`
          : 'yes'
        : `no: ${because ?? leftOutWords(leftOut)}`,
    ]),
  };
}

/** Direction and gradient of a zone in every event that was gauged, or why there is none. */
export function flowTable(site: Site, zone: string | null): ReportTable {
  const percent = `${Math.round(site.settings.confidence * 100)} %`;
  return {
    name: 'flow',
    title: zone === null ? 'Flow by event' : `Flow by event, ${zone} zone`,
    columns: [
      { name: 'Event' },
      { name: 'First day' },
      { name: 'Last day' },
      { name: 'Heads', number: true },
      { name: 'From grid north', number: true },
      { name: `± at ${percent}`, number: true },
      { name: 'From true north', number: true },
      { name: 'Gradient', number: true },
      { name: `± at ${percent}`, number: true },
      { name: 'Resolved' },
    ],
    rows: flowsOverTime(site, zone).map(({ event, flow }) => {
      const told = flow.resolved;
      const { azimuthHalfWidth: half, gradientHalfWidth: slope } = flow;
      return [
        event.title ?? event.id,
        event.first_day,
        event.last_day,
        String(flow.fitted.length),
        told && flow.azimuthGrid ? direction(flow.azimuthGrid.value) : '',
        told && half !== null ? `${fixed(half, 1)}°` : '',
        told && flow.azimuthTrue ? direction(flow.azimuthTrue.value) : '',
        flow.gradient ? gradient(flow.gradient.value) : '',
        flow.gradient && slope !== null ? significant(slope, 2) : '',
        told
          ? flow.isPlane === false
            ? 'yes, but no one plane'
            : 'yes'
          : `no: ${flow.reason ?? ''}`,
      ];
    }),
  };
}

/** Results as the laboratory reported them, each against its level in the same unit. */
export function resultsTable(results: readonly JudgedResult[]): ReportTable {
  return {
    name: 'results',
    title: 'Results',
    columns: [
      { name: 'Point' },
      { name: 'Sample' },
      { name: 'Analyte' },
      { name: 'Result', number: true },
      { name: 'Laboratory' },
      { name: 'Validation' },
      { name: 'Level', number: true },
      { name: 'Verdict' },
    ],
    rows: results.map(({ row, sample, location, reading, judged }) => [
      location?.id ?? '',
      sample.id,
      row.analyte,
      reportedText({ reading }),
      row.lab_qualifier ?? '',
      row.validation_qualifier ?? '',
      judged.match.level ? levelBeside(judged.match.level, reading) : '',
      VERDICT_WORDS[judged.outcome.verdict],
    ]),
  };
}

/** What was pushed: holes, intervals, and how each hole was closed. */
export function pushTable(site: Site): ReportTable {
  const unit = site.settings.verticalUnit;
  const pushed = [...site.locations.values()].filter(({ kind }) => kind === 'direct push');
  return {
    name: 'pushes',
    title: 'Push records',
    columns: [
      { name: 'Point' },
      { name: 'Status' },
      { name: 'Holes' },
      { name: `Intervals below ground, ${unitText(unit)}` },
      { name: 'Decommissioned' },
    ],
    rows: pushed.map(({ id, status }) => {
      const holes = site.attempts.filter(({ location }) => location === id);
      const screens = [...site.screens.values()].filter(({ location }) => location === id);
      return [
        id,
        status,
        holes
          .map(({ suffix, depth, outcome, day }) =>
            [suffix, outcome, depth ? `at ${written(depth)}` : '', day]
              .filter((part) => part)
              .join(' '),
          )
          .join('; '),
        screens.map((screen) => intervalText(site, screen.id)).join('; '),
        holes
          .map(
            ({ decommission_material: fill, decommission_how, decommission_day, open_reason }) =>
              fill === null
                ? open_reason
                  ? `open: ${open_reason}`
                  : 'not recorded'
                : [fill, decommission_how, decommission_day].filter((part) => part).join(', '),
          )
          .join('; '),
      ];
    }),
  };
}

function intervalText(site: Site, id: string): string {
  const screen = site.screens.get(id);
  const location = screen && site.locations.get(screen.location);
  if (!screen || !location) return '';
  const found = intervalOf(screen, location);
  const unit = site.settings.verticalUnit;
  if (!found.ok) return `${id}: ${noIntervalWords(found.problem)}`;
  const { topDepth, baseDepth } = found.value;
  return `${id}: ${lengthNumber(topDepth.value, unit, 1)} to ${length(baseDepth.value, unit, 1)}`;
}

/** The same as a table of text, for a file. */
export const asTable = ({ columns, rows }: ReportTable): Table =>
  tableOf(uniqueNames(columns.map(({ name }) => name)), rows);

/** Columns of one name are told apart by the one before them. */
const uniqueNames = (names: readonly string[]) =>
  names.map((name, i) =>
    names.indexOf(name) < i || names.lastIndexOf(name) > i
      ? `${names[i - 1] ?? ''} ${name}`.trim()
      : name,
  );
