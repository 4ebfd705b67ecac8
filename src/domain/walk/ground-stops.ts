import { groupBy } from '../group';
import { length } from '../show';
import type { Location, Stratum } from '../site/schema';
import { SHOWN_AT_FIRST, type Shown } from '../site/shown';
import type { Site } from '../site/site';
import { metres } from '../units';
import { intervalOf } from '../water/screen-interval';
import { sectionLines } from '../water/section';
import { counted, listed, said, type Material, type Sentence, type Telling } from './stop';
import { eventWords } from './view-words';
import { windowAround } from './window';

/** Nothing but the ground and the points. */
export const bare = (of: Material['of']): Shown => ({
  ...SHOWN_AT_FIRST,
  ...of,
  heads: false,
  arrow: false,
  verdicts: false,
});

const namesOf = (site: Site, kind: string) => [
  ...new Set(
    site.features.flatMap((feature) => (feature.kind === kind ? [feature.name ?? feature.id] : [])),
  ),
];

/** Where we are: the site, what is known to have leaked, who or what could be reached. */
export function whereWeAre({ site, of }: Material): Telling {
  const [sources, receptors] = [namesOf(site, 'source area'), namesOf(site, 'receptor')];
  const points = [...site.locations.values()];
  const wells = points.filter(({ kind }) => kind === 'monitoring well' || kind === 'piezometer');
  const pushes = points.filter(({ kind }) => kind === 'direct push');
  const event = of.event === null ? null : eventWords(site, of.event);
  return {
    title: site.settings.title,
    sentences: [
      said(
        sources.length > 0
          ? `Drawn as sources: ${listed(sources)}.`
          : 'No source is drawn on the map of this site.',
      ),
      said(
        receptors.length > 0
          ? `Drawn as what could be reached: ${listed(receptors)}.`
          : 'Nothing is drawn on the map as what could be reached.',
      ),
      said(
        `${counted(wells.length, 'well and piezometer', 'wells and piezometers')} and ${counted(pushes.length, 'direct-push point')} are on the map.`,
      ),
      said(event ? `This walk tells of ${event}.` : 'There is no event in the site.'),
      ...(site.settings.validated
        ? []
        : [
            said(
              'Preliminary: nobody has recorded yet that the results were checked (validated), so they may still change.',
            ),
          ]),
    ],
    notes: 'Only what was drawn is known. Figures are interpretive, not a survey.',
    view: { shown: bare(of), points: 'all', contours: false, pictures: true, window: null },
  };
}

/** Whether a hole was made at a direct-push point. */
export const wasPushed = ({ status }: Location) =>
  status !== 'planned' && status !== 'refused' && status !== 'dropped';

/** Reasons for a push told before they are counted. */
const REASONS = 5;

/** Where we pushed and why there, from the purposes written on the points. */
export function wherePushed({ site, of }: Material): Telling {
  const pushes = [...site.locations.values()].filter(({ kind }) => kind === 'direct push');
  const [done, refused, planned, dropped] = [
    pushes.filter(wasPushed),
    pushes.filter(({ status }) => status === 'refused'),
    pushes.filter(({ status }) => status === 'planned'),
    pushes.filter(({ status }) => status === 'dropped'),
  ];
  const sentence = (words: string[]) => (words.length > 0 ? [said(words.join(' '))] : []);
  const purposes = [...groupBy(done, ({ purpose }) => purpose?.trim() ?? '')]
    .filter(([purpose]) => purpose !== '')
    .toSorted(([, a], [, b]) => b.length - a.length);
  const isOneEach = purposes.every(([, here]) => here.length === 1);
  const why = purposes.map(([purpose, here]) =>
    isOneEach ? purpose : `${purpose} (${counted(here.length, 'point')})`,
  );
  const more = why.length > REASONS + 1 ? why.splice(REASONS).length : 0;
  const reasons = listed([...why, ...(more > 0 ? [`${more} more reasons`] : [])], REASONS + 1);
  const unsaid = done.filter(({ purpose }) => !purpose?.trim()).length;
  return {
    title:
      done.length > 0
        ? `${counted(done.length, 'point')} pushed${unsaid > 0 ? '' : ', each for a reason'}`
        : 'No point has been pushed yet',
    sentences: [
      ...sentence(why.length > 0 ? [`Why there: ${reasons}.`] : []),
      ...sentence([
        ...(refused.length > 0
          ? [`Refused before it was reached: ${listed(refused.map(({ id }) => id))}.`]
          : []),
        ...(planned.length > 0
          ? [`Planned and not yet pushed: ${listed(planned.map(({ id }) => id))}.`]
          : []),
        ...(dropped.length > 0
          ? [`Planned and given up: ${listed(dropped.map(({ id }) => id))}.`]
          : []),
      ]),
      ...sentence(
        unsaid > 0
          ? [`No purpose is written for ${unsaid === done.length ? 'them' : `${unsaid} of them`}.`]
          : done.length > 0
            ? ['Between the points nothing was seen.']
            : [],
      ),
    ],
    notes: purposes
      .map(([purpose, here]) => `${purpose}: ${here.map(({ id }) => id).join(', ')}`)
      .join('\n'),
    view: {
      shown: bare(of),
      points: 'pushed',
      contours: false,
      pictures: true,
      window: windowAround(pushes),
    },
  };
}

/** One class of soil as often as it follows itself in a log. */
type Layer = { readonly soil: string; readonly top: number; readonly base: number };

function layersOf(strata: readonly Stratum[]): Layer[] {
  const layers: Layer[] = [];
  for (const one of strata.toSorted((a, b) => a.top.value - b.top.value)) {
    const soil = one.class ?? 'other';
    const above = layers.at(-1);
    if (above?.soil === soil) layers[layers.length - 1] = { ...above, base: one.bottom.value };
    else layers.push({ soil, top: one.top.value, base: one.bottom.value });
  }
  return layers;
}

/** Depths in words: "4.0 ft", or "4.0 to 6.5 ft" where the logs differ. */
function spread(site: Site, depths: readonly number[]): string {
  const { verticalUnit: unit } = site.settings;
  const [least, most] = [Math.min(...depths), Math.max(...depths)].map((depth) =>
    length(metres(depth), unit, 1),
  );
  return least === most ? (most ?? '') : `${(least ?? '').replace(/ .*$/, '')} to ${most ?? ''}`;
}

/** What lies below, from the logs: the sequence most of them share, with the depths of its bases. */
export function whatLiesBelow({ site, of }: Material): Telling {
  const logs = [...groupBy(site.strata, ({ location }) => location)].map(([id, strata]) => ({
    id,
    layers: layersOf(strata),
  }));
  const sequence = commonSequence(logs.map(({ layers }) => layers.map(({ soil }) => soil)));
  const alike = logs.filter(({ layers }) => sequence.every((soil, i) => layers[i]?.soil === soil));
  const others = logs.filter((log) => !alike.includes(log)).map(({ id }) => id);
  const told = sequence.map((soil, i) => {
    const under = alike.flatMap(({ layers }) => (layers[i + 1] ? [layers[i]?.base ?? 0] : []));
    return under.length > 0 && i < sequence.length - 1 ? `${soil} to ${spread(site, under)}` : soil;
  });
  const locations = logs.flatMap(({ id }) => site.locations.get(id) ?? []);
  return {
    title: logs.length > 0 ? 'What lies below' : 'What lies below is not logged',
    sentences:
      logs.length > 0
        ? [
            said(`From the surface down: ${told.join(', then ')}.`),
            said(
              others.length > 0
                ? `${alike.length} of ${counted(logs.length, 'boring log')} show this; otherwise in ${listed(others)}. Depths are below ground.`
                : `${logs.length === 1 ? 'The one boring log shows' : `All ${logs.length} boring logs show`} this. Depths are below ground.`,
            ),
            ...zoneSentence(site, of.zone),
            said('Between the borings the layers are inferred.'),
          ]
        : [said('The site holds no log of a boring.')],
    notes: logs
      .map(({ id, layers }) => `${id}: ${layers.map(({ soil }) => soil).join(', ')}`)
      .join('\n'),
    view: {
      shown: bare(of),
      points: 'borings',
      contours: false,
      section: true,
      window: windowAround(locations, sectionLines(site)[0]?.line),
    },
  };
}

/** The longest run of soils from the surface that more than half of the logs share. */
function commonSequence(logs: readonly (readonly string[])[]): string[] {
  const sequence: string[] = [];
  let agreeing = logs;
  for (;;) {
    const here = groupBy(agreeing, (log) => log[sequence.length] ?? '');
    const [best] = [...here].toSorted(([, a], [, b]) => b.length - a.length);
    if (!best || best[0] === '' || best[1].length * 2 <= logs.length) return sequence;
    sequence.push(best[0]);
    agreeing = best[1];
  }
}

/** Between which depths the screens of the zone in view stand open. */
function zoneSentence(site: Site, zone: string | null): Sentence[] {
  if (zone === null) return [];
  const open = [...site.screens.values()].flatMap((screen) => {
    const location = site.locations.get(screen.location);
    const interval = screen.zone === zone && location ? intervalOf(screen, location) : null;
    return interval?.ok ? [interval.value] : [];
  });
  const [first] = open;
  if (!first) return [];
  const top = open.reduce((a, { topDepth: b }) => (b.value < a.value ? b : a), first.topDepth);
  const base = open.reduce((a, { baseDepth: b }) => (b.value > a.value ? b : a), first.baseDepth);
  const { verticalUnit: unit } = site.settings;
  return [
    said(
      `Wells and points of the ${zone} zone take in water between `,
      { text: length(top.value, unit, 1), work: top.work },
      ' and ',
      { text: length(base.value, unit, 1), work: base.work },
      ' below ground.',
    ),
  ];
}
