import { groundOf, plannedInterval } from '../../domain/layout/driven';
import type { Location, Screen } from '../../domain/site/schema';
import type { Metres } from '../../domain/units';
import { intervalOf } from '../../domain/water/screen-interval';

/** A screen as its log draws it: depths below ground; as driven, else as planned. */
export type LogScreen = {
  readonly screen: Screen;
  /** Null where no depth is known. */
  readonly tip: Metres | null;
  readonly open: { readonly top: Metres; readonly base: Metres } | null;
  readonly isPlanned: boolean;
};

/** The screens of a location, in the order of their table. */
export const logScreens = (screens: readonly Screen[], location: Location): LogScreen[] =>
  screens.map((screen) => {
    const isPlanned = !screen.tip_depth && screen.planned_tip_depth !== null;
    const tip = (screen.tip_depth ?? screen.planned_tip_depth)?.value ?? null;
    if (isPlanned) {
      const planned = plannedInterval(screen, groundOf(location));
      const depth = planned.ok ? planned.value.depth : null;
      const open = depth && { top: depth.top.value, base: depth.base.value };
      return { screen, tip, open, isPlanned };
    }
    const driven = intervalOf(screen, location);
    const open = driven.ok
      ? { top: driven.value.topDepth.value, base: driven.value.baseDepth.value }
      : null;
    return { screen, tip, open, isPlanned };
  });
