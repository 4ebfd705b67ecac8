/** Joins two letters so that no line ends between them (Unicode, U+2060). */
const JOINER = '\u2060';
const NO_BREAK_SPACE = '\u00a0';

/**
 * Words of which no line ends within a name ("PZ-7") or between a number and its
 * unit ("5 µg/L"): on a wall a name is read as one.
 */
export const unbroken = (text: string): string =>
  text
    .replaceAll(/(?<=[A-Za-z0-9]-)(?=\d)/g, JOINER)
    .replaceAll(/(?<=\d) (?=(?:ft|m|%|[µu]g\/L|mg\/L|ng\/L)(?![A-Za-z]))/g, NO_BREAK_SPACE);

/** A title of which no line ends between a number and what it counts: "What the pushes found: 7 compounds exceed …". */
export const unbrokenTitle = (title: string): string =>
  unbroken(title).replaceAll(/(?<=(?:^|\s)\d+) (?=[a-z])/g, NO_BREAK_SPACE);
