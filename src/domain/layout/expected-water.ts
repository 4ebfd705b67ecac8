import { fail, ok, type Result } from '../result';
import { length } from '../show';
import { placeIn } from './replan';
import type { Site } from '../site/site';
import { metres, type LengthUnit, type Metres } from '../units';
import type { XY } from '../geometry/shape';
import type { Flow } from '../water/flow';
import { tinLeftOut } from '../water/surface/cross-validation';
import { surfacePoints } from '../water/surface-words';
import { chosen, lengthWorked, workedOut, type Given } from './given';
import { groundBetween } from './ground-elevation';
import type { ExpectedWater } from './set-screens';

/** Elevation of the water expected at any place, between the heads that count in the flow; why none, in words. */
export function waterBetween(site: Site, flow: Flow | null): (at: XY) => Result<Given, string> {
  const heads = (flow?.fitted ?? []).flatMap(({ gauged: { screen, location, head } }) => {
    const at = placeIn(location, site.settings.grid.unit);
    return at && head ? [{ id: screen.id, at, elevation: workedOut(head) }] : [];
  });
  const between = groundBetween(heads);
  return (at) => {
    const made = between(at);
    if (!made.ok)
      return fail(
        made.problem.kind === 'outside-survey'
          ? 'no water expected: outside the wells gauged'
          : 'no water expected: fewer than three heads in the event',
      );
    const { value, work } = made.value.elevation;
    const terms = work.terms.map((term) => ({
      ...term,
      name: term.name.replace(/^ground at (.*), surveyed$/, 'head at $1'),
    }));
    return ok(
      workedOut({
        value,
        work: { ...work, terms, title: 'Water expected, between heads', symbol: 'water' },
      }),
    );
  };
}

/** The depth below ground at which water is expected on the whole site, as typed; null where none is. */
export function expectedDepth({ settings: { expectedWater, verticalUnit } }: Site): Given | null {
  const depth = expectedWater?.depth ?? null;
  return depth === null ? null : chosen(depth, verticalUnit, 'water expected below ground');
}

/** How far below ground water at an elevation is. */
export const depthOf = (water: Given, ground: Given): Given =>
  workedOut(
    lengthWorked(
      'Water expected below ground',
      'water',
      'ground - elevation',
      ground.value - water.value,
      [
        ['ground', 'ground elevation', ground],
        ['elevation', 'expected elevation of the water', water],
      ],
    ),
  );

/** How far off the water expected may be, and from how many wells that is known. */
export type WaterError = {
  /** Root mean square of what each well reads less what the others say of it. */
  readonly error: Metres;
  readonly wells: number;
  readonly of: number;
};

/**
 * The error of the water expected between heads: each well of the flow left out
 * in turn and read off the triangles of the others. Null where no well lies
 * among others, and the error is not known.
 */
export function waterError(flow: Flow | null): WaterError | null {
  const points = flow ? surfacePoints(flow) : [];
  if (points.length < 4) return null;
  const { rootMeanSquare, predicted, places } = tinLeftOut(points);
  return rootMeanSquare === null
    ? null
    : { error: rootMeanSquare, wells: predicted, of: places.length };
}

/** How good the water expected is, in words: of that between heads, and of that typed for the site; blank where none is expected. */
export function expectedWaterWords(
  flow: Flow | null,
  typed: ExpectedWater | null,
  unit: LengthUnit,
): string {
  const found = waterError(flow);
  const byHeads =
    !flow || flow.fitted.length === 0
      ? []
      : [
          found
            ? `water expected ± ${length(found.error, unit)}, found by leaving out ${found.wells} of ${found.of} wells in turn`
            : 'the error of the water expected is not known: no well lies among others',
        ];
  const depth = typed?.depth ?? null;
  const error = typed?.error ?? null;
  if (depth === null) return byHeads.join('');
  const give =
    error === null ? ', its error not stated' : ` ± ${length(metres(error, unit), unit)}`;
  const where = byHeads.length > 0 ? 'where no heads say, ' : '';
  return [
    ...byHeads,
    `${where}water expected about ${length(metres(depth, unit), unit)} below ground${give}, as typed`,
  ].join('; ');
}
