import type { Screen } from '../site/schema';
import type { LengthUnit, Metres } from '../units';
import type { Work } from '../work';
import { plannedInterval } from './driven';
import type { PlannedPoint } from './field-plan';
import { intervalWords } from './interval-words';
import { isMove, moveWords, type SetPoint } from './set-screens';
import type { Setting } from './setting-rules';
import { contactsCrossed, waterIn, type Contact, type Wetness } from './water-in-screen';

/** One screen of a planned point: as the rules give it, else as it stands written. */
export type ScreenLine = {
  /** Null where neither gives one; `says` then why. */
  readonly screen: {
    readonly tip: Metres;
    /** How the rules came to it; null where it is what was written. */
    readonly work: Work | null;
    /** Below ground. */
    readonly top: Metres;
    readonly base: Metres;
    /** How the water expected stands to it; null where none is. */
    readonly wetness: Wetness | null;
    readonly crosses: readonly Contact[];
    /** From where its layer is estimated; blank where it is set in none, or one logged there. */
    readonly layer: string;
  } | null;
  /** How it stands to what is written: "as set", "not set yet", "moves 0.30 ft deeper". */
  readonly says: string;
  /** Whether that wants to be seen. */
  readonly differs: boolean;
};

/** Every screen of a planned point, in the order of the rules, those written beyond them last. */
export function screenLines(set: SetPoint, unit: LengthUnit): readonly ScreenLine[] {
  const { point, made, written, others, moves } = set;
  const byRule = made.settings.map((setting, i): ScreenLine => {
    const before = written[i] ?? null;
    if (setting.ok) {
      const move = moves[i] ?? null;
      const screen = asRuled(setting.value);
      if (isMove(move)) return { screen, says: `moves ${moveWords(move, unit)}`, differs: true };
      return { screen, says: before ? 'as set' : 'not set yet', differs: false };
    }
    const why = intervalWords(setting.problem, unit);
    const screen = before && asWritten(before, point);
    return screen
      ? { screen, says: `as set; these rules set none: ${why}`, differs: false }
      : { screen: null, says: `Not set: ${why}`, differs: false };
  });
  const beyond = others.flatMap((other): ScreenLine[] => {
    const screen = asWritten(other, point);
    return screen ? [{ screen, says: 'as set, by no rule here', differs: false }] : [];
  });
  return [...byRule, ...beyond];
}

function asRuled({ rule, tipDepth, interval, water, crosses }: Setting): ScreenLine['screen'] {
  return {
    tip: tipDepth.value,
    work: tipDepth.work,
    top: interval.depth.top.value,
    base: interval.depth.base.value,
    wetness: water.ok ? water.value.wetness : null,
    crosses,
    layer: (rule.kind === 'layer' && rule.layer?.estimated) || '',
  };
}

function asWritten(screen: Screen, point: PlannedPoint): ScreenLine['screen'] {
  const { ground, water, waterDepth, layers } = point;
  const tip = screen.planned_tip_depth;
  const interval = plannedInterval(screen, ground.ok ? ground.value.elevation : null);
  if (!tip || !interval.ok) return null;
  const { top, base } = interval.value.depth;
  const stands = waterIn(interval.value, water.ok ? water.value : null, waterDepth);
  return {
    tip: tip.value,
    work: null,
    top: top.value,
    base: base.value,
    wetness: stands.ok ? stands.value.wetness : null,
    crosses: contactsCrossed(interval.value, layers),
    layer: '',
  };
}
