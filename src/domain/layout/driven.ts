import { cell } from '../site/cite';
import type { Location, Screen } from '../site/schema';
import { written, type Given } from './given';
import { intervalOf, type Driven, type Interval, type IntervalProblem } from './interval';
import type { Result } from '../result';

/** Ground elevation of a location as recorded; null where none is, or it is said not to be known. */
export const groundOf = (location: Location): Given | null =>
  location.ground_elevation && location.ground_how !== null && location.ground_how !== 'none'
    ? written(location.ground_elevation, cell('locations', location, 'ground_elevation'))
    : null;

/** What a screen's row says of how it was driven, each number citing its cell. */
export function drivenFrom(screen: Screen, location: Location | null): Driven {
  const given = (
    column:
      | 'tip_depth'
      | 'tool_offset'
      | 'exposed_length'
      | 'retraction'
      | 'screen_length'
      | 'sounded_depth',
  ) => {
    const value = screen[column];
    return value && written(value, cell('screens', screen, column));
  };
  return {
    tipDepth: given('tip_depth'),
    toolOffset: given('tool_offset'),
    exposedLength: given('exposed_length'),
    ground: location && groundOf(location),
    retraction: given('retraction'),
    screenLength: given('screen_length'),
    soundedDepth: given('sounded_depth'),
  };
}

/**
 * The interval a screen is planned to open, each number citing its cell.
 *
 * @param ground  elevation known or estimated; null where it is neither
 */
export function plannedInterval(
  screen: Screen,
  ground: Given | null,
): Result<Interval, IntervalProblem> {
  const given = (column: 'planned_tip_depth' | 'tool_offset' | 'planned_exposed_length') => {
    const value = screen[column];
    return value && written(value, cell('screens', screen, column));
  };
  return intervalOf({
    tipDepth: given('planned_tip_depth'),
    toolOffset: given('tool_offset'),
    exposedLength: given('planned_exposed_length'),
    ground,
  });
}
