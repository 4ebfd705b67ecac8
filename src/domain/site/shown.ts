/**
 * What is shown, as one plain value, so that a stop of the walk, a sheet, a
 * link and a test are the same thing. Never part of the site, never undone.
 */
export type Shown = {
  /** Event by id; null where the site has none. */
  readonly event: string | null;
  /** Zone by name; null where no screen has one. */
  readonly zone: string | null;
  /** Set of screening levels by name. */
  readonly levelSet: string | null;
  /** Sets shown beside it, by name. */
  readonly besides?: readonly string[];
  /** Analyte by name; null: the worst of all. */
  readonly analyte: string | null;
  /** Screens the three-point construction is drawn for; empty: it is not drawn. */
  readonly construction: readonly string[];
  readonly heads: boolean;
  readonly arrow: boolean;
  readonly verdicts: boolean;
  readonly labels: boolean;
};

export const SHOWN_AT_FIRST: Shown = {
  event: null,
  zone: null,
  levelSet: null,
  analyte: null,
  construction: [],
  heads: true,
  arrow: true,
  verdicts: true,
  labels: true,
};
