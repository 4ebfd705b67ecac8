import { headsAt, flowAt } from '../domain/findings/history';
import { ASKED_AT_FIRST, askedResults, type Asked } from '../domain/lab/asked-results';
import type { JudgedResult } from '../domain/lab/site-results';
import type { Shown } from '../domain/site/shown';
import type { Site } from '../domain/site/site';
import type { GaugedScreen } from '../domain/water/event-heads';
import type { Flow } from '../domain/water/flow';
import { shownIn } from './shown-in';

/** What is gauged, worked out and judged of what is shown, whatever the desk is at. */
export type Answers = {
  readonly site: Site;
  /** As far as the site has what was asked for. */
  readonly shown: Shown;
  readonly heads: readonly GaugedScreen[];
  /** Null without an event. */
  readonly flow: Flow | null;
  /** Field samples of the event against its set of levels, the analyte shown or all. */
  readonly results: readonly JudgedResult[];
};

/** The answers of a site to what a stop, a figure or a sheet shows: its own event, zone and analyte. */
export function answersFor(site: Site, chosen: Shown, asked: Asked = ASKED_AT_FIRST): Answers {
  const shown = shownIn(site, chosen);
  const { event, zone, levelSet, analyte } = shown;
  return {
    site,
    shown,
    heads: event === null ? [] : headsAt(site, event),
    flow: event === null ? null : flowAt(site, event, zone),
    results: askedResults(site, levelSet, event, asked).filter(
      ({ row }) => analyte === null || row.analyte === analyte,
    ),
  };
}
