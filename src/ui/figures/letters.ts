/**
 * The letters of a sheet, put into the files that are made of it: Source Sans 3,
 * SIL Open Font License 1.1. Loaded only when a file is made.
 */
import greek from '@fontsource/source-sans-3/files/source-sans-3-greek-400-normal.woff?inline';
import italic from '@fontsource/source-sans-3/files/source-sans-3-latin-400-italic.woff?inline';
import regular from '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff?inline';
import semibold from '@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff?inline';
import extended from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-400-normal.woff?inline';
import { FAMILY } from '../../map/look/look';

export type Letters = {
  /** data: address of the font as the web sends it. */
  readonly address: string;
  /** What a PDF calls it: a family holds only the letters of one file. */
  readonly family: string;
  readonly weight: 'normal' | 'bold';
  readonly style: 'normal' | 'italic';
  /** What a style sheet calls its letters, and which of them it holds. */
  readonly range: string;
  readonly holds: RegExp;
};

const LATIN =
  /[\u0000-\u00ff\u0131\u0152\u0153\u02bb\u02bc\u02c6\u02da\u02dc\u2000-\u206f\u20ac\u2122\u2191\u2193\u2212\u2215]/u;
const LATIN_RANGE =
  'U+0000-00FF, U+0131, U+0152-0153, U+02BB-02BC, U+02C6, U+02DA, U+02DC, U+2000-206F, U+20AC, U+2122, U+2191, U+2193, U+2212, U+2215';

const latin = { family: FAMILY, range: LATIN_RANGE, holds: LATIN } as const;

export const LETTERS: readonly Letters[] = [
  { ...latin, address: regular, weight: 'normal', style: 'normal' },
  { ...latin, address: semibold, weight: 'bold', style: 'normal' },
  { ...latin, address: italic, weight: 'normal', style: 'italic' },
  {
    address: extended,
    family: `${FAMILY} Extended`,
    weight: 'normal',
    style: 'normal',
    range: 'U+0100-02BA, U+1E00-1E9F',
    holds: /[\u0100-\u02ba\u1e00-\u1e9f]/u,
  },
  {
    address: greek,
    family: `${FAMILY} Greek`,
    weight: 'normal',
    style: 'normal',
    range: 'U+0370-03FF',
    holds: /[\u0370-\u03ff]/u,
  },
];

export const bytesOfAddress = (address: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(address.slice(address.indexOf(',') + 1)), (letter) => letter.charCodeAt(0));

/** The letters among these that a text is set in; Latin always. */
export const lettersFor = (text: string): readonly Letters[] =>
  LETTERS.filter(({ holds }) => holds === LATIN || holds.test(text));

/** What of a text no file holds, each letter once. */
export const lettersMissing = (text: string): string[] => [
  ...new Set(Array.from(text).filter((letter) => !LETTERS.some(({ holds }) => holds.test(letter)))),
];

/** A text in runs, each of the letters of one family. */
export function runsOf(text: string): { family: string; text: string }[] {
  const runs: { family: string; text: string }[] = [];
  for (const letter of text) {
    const family = LETTERS.find(({ holds }) => holds.test(letter))?.family ?? FAMILY;
    const last = runs.at(-1);
    if (last?.family === family) last.text += letter;
    else runs.push({ family, text: letter });
  }
  return runs;
}
