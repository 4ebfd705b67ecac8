/**
 * A laboratory file of so many rows, made up and always the same: location,
 * sample, date, analyte, CAS, result, qualifier, limit, unit. A million rows are
 * about 80 MB.
 */
const ANALYTES = [
  ['Benzene', '71-43-2', 'ug/L'],
  ['Trichloroethene', '79-01-6', 'ug/L'],
  ['Vinyl chloride', '75-01-4', 'ug/L'],
  ['"1,1-Dichloroethane"', '75-34-3', 'ug/L'],
  ['"cis-1,2-Dichloroethene"', '156-59-2', 'ug/L'],
  ['"trans-1,2-Dichloroethene"', '156-60-5', 'ug/L'],
  ['Tetrachloroethene', '127-18-4', 'ug/L'],
  ['Toluene', '108-88-3', 'ug/L'],
  ['Naphthalene', '91-20-3', 'ug/L'],
  ['"1,4-Dioxane"', '123-91-1', 'ug/L'],
  ['Arsenic', '7440-38-2', 'mg/L'],
  ['Lead', '7439-92-1', 'mg/L'],
] as const;

const LIMITS = ['0.10', '0.20', '0.50', '1.0', '2.0', '5.0'] as const;

export const LAB_HEADER = 'location,sample,date,analyte,cas,result,qualifier,limit,unit';

const LOCATIONS = 400;

/** Screening levels for it, as a file. */
export const LEVELS = `analyte,cas,level,unit
benzene,71-43-2,5,ug/L
trichloroethene,79-01-6,5,ug/L
vinyl chloride,75-01-4,2,ug/L
arsenic,7440-38-2,0.01,mg/L
lead,7439-92-1,15,ug/L
naphthalene,91-20-3,0.17,ug/L
"1,4-dioxane",123-91-1,0.46,ug/L
`;

export function labFile(rows: number): Uint8Array<ArrayBuffer> {
  let state = 12_345;
  const random = () => (state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0) / 2 ** 32;
  const encoder = new TextEncoder();
  const pieces: Uint8Array[] = [encoder.encode(`${LAB_HEADER}\n`)];
  let text = '';
  let made = 0;
  for (let round = 0; made < rows; round++) {
    const year = 1990 + Math.floor(round / 4);
    const month = String(3 * (round % 4) + 2).padStart(2, '0');
    for (let well = 0; well < LOCATIONS && made < rows; well++) {
      const location = `MW-${String(well + 1).padStart(3, '0')}`;
      const day = String(1 + (well % 28)).padStart(2, '0');
      const sample = `${location}-${year}${month}${day}-01`;
      for (const [analyte, cas, unit] of ANALYTES) {
        if (made++ >= rows) break;
        const limit = LIMITS[Math.floor(random() * LIMITS.length)] ?? '1.0';
        const isSeen = random() < 0.45;
        const value = (10 ** (random() * 5 - 1)).toPrecision(3);
        const result = isSeen ? (value.includes('e') ? String(Number(value)) : value) : `<${limit}`;
        const letter = isSeen ? (random() < 0.2 ? 'J' : '') : 'U';
        text += `${location},${sample},${year}-${month}-${day},${analyte},${cas},${result},${letter},${limit},${unit}\n`;
      }
      if (text.length > 1_000_000) {
        pieces.push(encoder.encode(text));
        text = '';
      }
    }
  }
  pieces.push(encoder.encode(text));
  const bytes = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}
