import type { Grid } from '../grid';
import type { Decision } from '../site/schema';
import type { Site } from '../site/site';
import type { GaugedScreen } from '../water/event-heads';
import type { Flow } from '../water/flow';
import type { Source } from '../work';

/** How much a finding weighs: leave the arrow unsigned; look before signing; only to be known. */
export type Severity = 'serious' | 'caution' | 'note';

/** Something readable but doubtful. It never disappears silently: it is mended, or accepted with a reason. */
export type Finding = {
  readonly rule: string;
  readonly severity: Severity;
  /** What a decision to accept it names; the same finding has the same words next time. */
  readonly about: string;
  /** Locations it is about, by id. */
  readonly who: readonly string[];
  readonly says: string;
  readonly todo: string;
  /** Cells it rests on. */
  readonly cells: readonly Source[];
  /** Readings that would be left out of the plane for it, this event's first; absent where that answers nothing. */
  readonly leaveOut?: readonly { readonly screen: string; readonly event: string }[];
};

/** A finding with the decision of whoever accepted it; null while nobody has. */
export type ReviewedFinding = Finding & { readonly accepted: Decision | null };

/** What a rule looks at: the site, and one event of it with what follows from it. */
export type Examined = {
  readonly site: Site;
  /** Null: the rules that concern the site as a whole. */
  readonly event: string | null;
  readonly heads: readonly GaugedScreen[];
  /** A flow for each zone gauged in the event. */
  readonly flows: readonly Flow[];
  /** Whether a place lies in the area the grid is meant for; null where nobody can say. */
  readonly covers: Grid['covers'];
};

/** One thing that can be doubtful; an empty list where it is not. */
export type Rule = (examined: Examined) => readonly Finding[];
