import type { ReportTable } from './report-tables';
import type { Window } from './stop';

/** Sheets of paper, width and height upright, in millimetres (ANSI/ASME Y14.1, ISO 216). */
export const PAPERS = {
  letter: [215.9, 279.4],
  tabloid: [279.4, 431.8],
  A4: [210, 297],
  A3: [297, 420],
} as const;
export type Paper = keyof typeof PAPERS;

/** Ground distance over paper distance: 600 is 1 inch = 50 ft. */
export const SCALES = {
  ft: [120, 240, 360, 480, 600, 720, 1200, 2400, 4800, 6000],
  m: [100, 200, 250, 500, 1000, 2000, 2500, 5000],
} as const;

/** Which unit the scale is said in; a survey foot is a foot here: the two make the same ratio. */
export type ScaleUnit = keyof typeof SCALES;

/** "1 inch = 50 ft (1:600)", or "1:500". */
export const scaleWords = (ratio: number, unit: ScaleUnit) =>
  unit === 'm' ? `1:${ratio}` : `1 inch = ${ratio / 12} ft (1:${ratio})`;

/** What stands on a sheet. */
export const SHEET_KINDS = ['map', 'section', 'table'] as const;
export type SheetKind = (typeof SHEET_KINDS)[number];

/** A figure as it was asked for. Blank lines of the title block stay blank and are found. */
export type FigureForm = {
  readonly kind: SheetKind;
  /** The section line drawn, by its feature; null: the first. */
  readonly line: string | null;
  /** Vertical scale over horizontal; null: what fits. */
  readonly exaggeration: number | null;
  readonly table: ReportTable['name'];
  /** Whether boxes of results stand beside the points of the map. */
  readonly boxes: boolean;
  readonly paper: Paper;
  readonly upright: boolean;
  readonly ratio: number;
  readonly scaleUnit: ScaleUnit;
  readonly title: string;
  readonly number: string;
  readonly project: string;
  readonly preparer: string;
  readonly reviewer: string;
  readonly revision: string;
};

/** Width and height of the sheet as it is turned, millimetres. */
export function paperSize({ paper, upright }: Pick<FigureForm, 'paper' | 'upright'>) {
  const [short, long] = PAPERS[paper];
  return upright ? { width: short, height: long } : { width: long, height: short };
}

/** Of the paper's edge left free; printers want it. */
export const MARGIN = 10;

/** The column of words: beside the map, or under it on an upright sheet. */
const COLUMN = 74;

/** A rectangle on the sheet, millimetres from its upper left corner. */
export type Area = {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
};

/** Where the map and the words stand on the sheet. */
export function sheetAreas(form: Pick<FigureForm, 'paper' | 'upright'>): {
  readonly map: Area;
  readonly words: Area;
} {
  const { width, height } = paperSize(form);
  const [w, h] = [width - 2 * MARGIN, height - 2 * MARGIN];
  const at = { left: MARGIN, top: MARGIN };
  if (!form.upright)
    return {
      map: { ...at, width: w - COLUMN, height: h },
      words: { left: MARGIN + w - COLUMN, top: MARGIN, width: COLUMN, height: h },
    };
  const under = Math.round(h * 0.36);
  return {
    map: { ...at, width: w, height: h - under },
    words: { left: MARGIN, top: MARGIN + h - under, width: w, height: under },
  };
}

/**
 * The part of the grid that a map of so many millimetres holds at a true scale.
 * The scale is that of the ground: grid metres are ground metres times the
 * combined factor, so that 100 ft on the ground at 1:600 is 2 inches.
 */
export function windowAt(
  [east, north]: readonly [number, number],
  { width, height }: Pick<Area, 'width' | 'height'>,
  ratio: number,
  combinedFactor: number,
): Window {
  const grid = (millimetres: number) => (millimetres / 1000) * ratio * combinedFactor;
  const [w, h] = [grid(width) / 2, grid(height) / 2];
  return { west: east - w, south: north - h, east: east + w, north: north + h };
}

/** The largest of the scales at which all of a window is on the map; the smallest where none holds it. */
export function scaleThatFits(
  whole: Window,
  { width, height }: Pick<Area, 'width' | 'height'>,
  unit: ScaleUnit,
  combinedFactor: number,
): number {
  const needed =
    (1000 * Math.max((whole.east - whole.west) / width, (whole.north - whole.south) / height)) /
    combinedFactor;
  return SCALES[unit].find((ratio) => ratio >= needed) ?? SCALES[unit].at(-1) ?? 1000;
}

/** Rows of a table on a sheet, and the room its heading takes, millimetres. */
export const TABLE_ROW = 4.4;
export const TABLE_HEAD = 15;
