import type { Section } from '../../domain/water/section';
import type { Area, FigureForm } from '../../domain/walk/figure';
import type { Window } from '../../domain/walk/stop';
import { ROOM, sectionScale } from '../section/section-scale';

const PX = 96 / 25.4;

/** Room on the sheet over and under a section: its name, the bar, the key. */
const AROUND = 24 + 120;

/** A section as the rectangle a scale must hold: its own length, and the room beside it. */
export function sectionWindow({ length }: Section, area: Area): { of: Window; combined: number } {
  const share = (area.width * PX) / (area.width * PX - ROOM.left - ROOM.right);
  return { of: { west: 0, south: 0, east: length * share, north: 1 }, combined: 1 };
}

/** What of a section does not fit its sheet, or why there is none, in words. */
export function cutWords(
  { kind, ratio }: FigureForm,
  section: Section | null,
  exaggeration: number,
  area: Area,
): string[] {
  if (kind !== 'section') return [];
  if (!section) return ['No section line is drawn on this site.'];
  const width = ROOM.left + ROOM.right + (section.length * 1000 * PX) / ratio;
  const high = sectionScale(section, width, exaggeration).height + AROUND;
  return [
    ...(width > area.width * PX + 0.5
      ? ['The section is longer than the sheet: choose a smaller scale or a larger sheet.']
      : []),
    ...(high > area.height * PX + 0.5
      ? ['The section is taller than the sheet: choose less exaggeration.']
      : []),
  ];
}
