import greek from '@fontsource/source-sans-3/files/source-sans-3-greek-400-normal.woff2?url';
import italic from '@fontsource/source-sans-3/files/source-sans-3-latin-400-italic.woff2?url';
import regular from '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff2?url';
import semibold from '@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff2?url';
import regularExtended from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-400-normal.woff2?url';
import semiboldExtended from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-600-normal.woff2?url';

/** The letters a file holds; the map fetches a file only when one of its letters is drawn. */
const LATIN = ['U+0000-00FF', 'U+2000-206F', 'U+2191', 'U+2193', 'U+2212'];
const EXTENDED = ['U+0100-02BA'];
const GREEK = ['U+0370-03FF'];

const face = (url: string, ranges: string[]) => ({
  url: new URL(url, document.baseURI).href,
  'unicode-range': ranges,
});

/** The family as the map wants it: one name for each weight, in the style's `font-faces`. */
export const mapFaces = () => ({
  regular: [face(regular, LATIN), face(regularExtended, EXTENDED), face(greek, GREEK)],
  semibold: [face(semibold, LATIN), face(semiboldExtended, EXTENDED), face(greek, GREEK)],
  italic: [face(italic, LATIN), face(regularExtended, EXTENDED), face(greek, GREEK)],
});
