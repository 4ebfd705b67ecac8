import { groundOf } from '../layout/driven';
import type { Given } from '../layout/given';
import { intervalOf, type Driven, type Interval, type IntervalProblem } from '../layout/interval';
import { contactsCrossed, type Contact, type Layer } from '../layout/water-in-screen';
import type { Result } from '../result';
import { length } from '../show';
import { cell } from '../site/cite';
import type { Edit } from '../site/edits/apply';
import { decimal } from '../site/read-cell';
import type { Location, MeasuringPoint, Screen } from '../site/schema';
import type { Site } from '../site/site';
import { metres, type LengthUnit, type Metres } from '../units';
import { marksOf } from '../water/measuring-point';
import { noIntervalWords } from '../water/screen-interval';
import { written } from '../layout/given';
import { cellsOf } from './holes';
import type { Remark } from './remark';
import { asWritten, rowOf, type Typed } from './typed';

/** A length as typed; null while it is blank or cannot be read. */
export function typedLength(text: string | undefined, unit: LengthUnit): Given | null {
  const as = asWritten(text ?? '');
  const number = decimal(as);
  if (number === null) return null;
  return {
    value: metres(number, unit),
    from: { kind: 'citation', text: 'typed, not yet confirmed' },
    text: as,
    recordedUnit: unit,
  };
}

/** What is typed of a screen, as the interval is reckoned from. */
export const drivenTyped = (typed: Typed, location: Location, unit: LengthUnit): Driven => ({
  tipDepth: typedLength(typed.tip_depth, unit),
  toolOffset: typedLength(typed.tool_offset, unit),
  exposedLength: typedLength(typed.exposed_length, unit),
  ground: groundOf(location),
  retraction: typedLength(typed.retraction, unit),
  screenLength: typedLength(typed.screen_length, unit),
  soundedDepth: typedLength(typed.sounded_depth, unit),
});

/** The layers logged at a location, from the top down. */
const layersAt = (site: Site, location: string): readonly Layer[] =>
  site.strata
    .filter((layer) => layer.location === location)
    .toSorted((a, b) => a.top.value - b.top.value)
    .map((layer) => ({
      name: layer.class ?? layer.description ?? 'not described',
      top: written(layer.top, cell('strata', layer, 'top')),
      bottom: written(layer.bottom, cell('strata', layer, 'bottom')),
    }));

export type Preview = {
  readonly interval: Result<Interval, IntervalProblem>;
  readonly contacts: readonly Contact[];
  /** Whether any layer is logged at the point: without one nothing is known of contacts. */
  readonly isLogged: boolean;
};

/** The interval as typed, and the contacts it crosses. */
export function previewOf(site: Site, location: Location, typed: Typed): Preview {
  const { verticalUnit, soundingTolerance } = site.settings;
  const interval = intervalOf(drivenTyped(typed, location, verticalUnit), soundingTolerance);
  const layers = layersAt(site, location.id);
  return {
    interval,
    contacts: interval.ok ? contactsCrossed(interval.value, layers) : [],
    isLogged: layers.length > 0,
  };
}

/** What there is to say of an interval while it is typed; nothing while its depths are missing. */
export function remarksOn({ interval, contacts, isLogged }: Preview, unit: LengthUnit): Remark[] {
  if (!interval.ok) {
    const { kind } = interval.problem;
    if (kind === 'no-tip-depth' || kind === 'no-exposed-length') return [];
    return [{ against: true, says: `This cannot be: ${noIntervalWords(kind)}. Measure again.` }];
  }
  const remarks: Remark[] = [];
  const { sounding, uncertain, offsetAssumed } = interval.value;
  if (sounding) {
    const apart = sounding.apart.value;
    const off = `Sounded ${length(metres(Math.abs(apart)), unit)} ${apart < 0 ? 'above' : 'below'} the screen base`;
    const limit = length(sounding.limit, unit);
    remarks.push(
      uncertain
        ? {
            against: true,
            says: `${off}: more than ${limit}. ${apart < 0 ? 'The screen may have ridden up with the rods' : 'The depth may be misread'}; the interval is marked uncertain.`,
          }
        : { against: false, says: `${off}: within ${limit}.` },
    );
  }
  for (const { depth, above, below } of contacts)
    remarks.push({
      against: true,
      says: `The interval crosses the contact of ${above} over ${below} at ${length(depth, unit)}: it belongs to no one zone.`,
    });
  if (!isLogged)
    remarks.push({
      against: false,
      says: 'Nothing is logged at this point: whether it crosses a contact is not known.',
    });
  if (offsetAssumed)
    remarks.push({ against: false, says: 'No tool offset is typed: none is taken off.' });
  return remarks;
}

/** One depth as planned and as pushed. Null where it is not known; `apart` is pushed less planned. */
export type Compared = {
  readonly name: string;
  readonly planned: Metres | null;
  readonly pushed: Metres | null;
  readonly apart: Metres | null;
};

/** The push sheet beside the hole. The planned base takes the tool offset as it is now. */
export function plannedAgainst(
  screen: Screen | null,
  typed: Typed,
  location: Location,
  unit: LengthUnit,
): readonly Compared[] {
  const pushed = drivenTyped(typed, location, unit);
  const plan: Driven = {
    tipDepth: given(screen?.planned_tip_depth ?? null),
    exposedLength: given(screen?.planned_exposed_length ?? null),
    toolOffset: pushed.toolOffset,
    ground: null,
  };
  const [planned, now] = [intervalOf(plan), intervalOf(pushed)];
  const row = (name: string, a: Metres | null, b: Metres | null): Compared => ({
    name,
    planned: a,
    pushed: b,
    apart: a === null || b === null ? null : metres(b - a),
  });
  const depth = (of: typeof now, part: 'base' | 'top') =>
    of.ok ? of.value.depth[part].value : null;
  return [
    row('Tip depth', plan.tipDepth?.value ?? null, pushed.tipDepth?.value ?? null),
    row('Exposed length', plan.exposedLength?.value ?? null, pushed.exposedLength?.value ?? null),
    row('Screen base, depth', depth(planned, 'base'), depth(now, 'base')),
    row('Screen top, depth', depth(planned, 'top'), depth(now, 'top')),
  ];
}

const given = (of: Screen['planned_tip_depth']): Given | null =>
  of && { value: of.value, text: of.text, from: { kind: 'setting', name: 'push sheet' } };

/** A name for the next of its kind: DP-01-S1, DP-01-S2. */
function nextName(stem: string, taken: ReadonlyMap<string, unknown>): string {
  for (let n = 1; ; n++) if (!taken.has(`${stem}${n}`)) return `${stem}${n}`;
}

/** The mark in use at a screen: the last of those with the latest first day. */
export const markNow = (site: Site, screen: string): MeasuringPoint | null =>
  marksOf(site, screen).reduce<MeasuringPoint | null>(
    (latest, mark) =>
      latest === null || (mark.from_day ?? '') >= (latest.from_day ?? '') ? mark : latest,
    null,
  );

/**
 * A screen as it was set, and the mark its water is read from: stick-up is read
 * again after retraction, so a new height is a new mark.
 *
 * @param screen  the planned or earlier row; null for one nobody planned
 */
export function intervalEdit(
  site: Site,
  location: Location,
  screen: Screen | null,
  typed: Typed,
  stickUp: string,
  day: string,
): Edit {
  const id = screen?.id ?? nextName(`${location.id}-S`, site.screens);
  const crosses = previewOf(site, location, typed).contacts.length > 0;
  const zone = crosses ? '' : (typed.zone ?? screen?.zone ?? '');
  const texts: Typed = { ...rowOf(typed), zone };
  const edits: Edit[] = [
    screen
      ? { kind: 'write-cells', table: 'screens', cells: cellsOf(screen, texts) }
      : {
          kind: 'add-rows',
          table: 'screens',
          rows: [{ ...rowOf(texts), id, location: location.id }],
        },
  ];
  const height = asWritten(stickUp);
  if (height !== '' && markNow(site, id)?.stick_up?.text !== height)
    edits.push({
      kind: 'add-rows',
      table: 'measuring_points',
      rows: [
        {
          id: nextName(`${id}-MP`, site.measuringPoints),
          screen: id,
          from_day: day,
          description: 'Top of rods',
          stick_up: height,
          note: 'Read after retraction',
        },
      ],
    });
  return { kind: 'together', edits };
}
