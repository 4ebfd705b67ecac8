import type { Verdict } from '../../domain/lab/verdict';
import type { Section } from '../../domain/water/section';

/** What a section draws that its key must explain; each thing once, in the order met. */
export type SectionMarks = {
  /** Classes of soil; `other` where a layer has none. */
  readonly soils: readonly string[];
  readonly verdicts: readonly Verdict[];
  /** Whether any level is drawn at a screen. */
  readonly isRead: boolean;
};

export function marksOf({ columns }: Section): SectionMarks {
  const screens = columns.flatMap((column) => column.screens);
  return {
    soils: [
      ...new Set(
        columns.flatMap(({ layers }) => layers.map(({ layer }) => layer.class ?? 'other')),
      ),
    ],
    verdicts: [...new Set(screens.flatMap(({ verdict }) => verdict ?? []))],
    isRead: screens.some(({ gauged }) => gauged?.head),
  };
}
