import { fail, ok, type Result } from '../../domain/result';
import { openDrawing } from '../../io/formats/open-drawing';
import type { Dressed } from '../../io/import/delimited-reader';
import { readDelimited, readDelimitedText } from '../../io/import/read-delimited';
import { secondReader } from './second-reader';
import { openWorkbook } from '../../io/import/read-workbook';
import type { Progress, SourceTable } from '../../io/import/source-table';
import { kindOf } from './kind-of';

type Reading = AsyncGenerator<Progress, Result<SourceTable, string>>;

/** A table that can be taken in: a file, a sheet of one, or what was pasted. */
export type Candidate = {
  readonly name: string;
  /** Delimited text, whose dress a person may correct; of other kinds only the header row. */
  readonly isText: boolean;
  readonly read: (dressed: Dressed) => Reading;
  /** Its first rows at least, to see what it is. */
  readonly glance: () => Reading;
};

/** Bytes of a text that tell what it is. */
const A_GLANCE = 64 * 1024;

/** Something that is read at once. */
async function* atOnce(
  reading: Result<SourceTable, string> | Promise<Result<SourceTable, string>>,
): Reading {
  return await reading;
}

/** The tables in a file; or why there are none. */
export async function candidatesIn(file: File): Promise<Result<readonly Candidate[], string>> {
  const kind = await kindOf(file);
  const bytes = async () => new Uint8Array(await file.arrayBuffer());
  switch (kind.kind) {
    case 'table':
      return ok([
        {
          name: file.name,
          isText: true,
          read: (dressed) => readDelimited(file.name, file, dressed, secondReader()),
          glance: () => readDelimited(file.name, file.slice(0, A_GLANCE)),
        },
      ]);
    case 'workbook': {
      const book = await openWorkbook(file.name, await bytes());
      if (!book.ok) return book;
      return ok(
        book.value.sheets.map((sheet) => ({
          name: book.value.sheets.length > 1 ? `${file.name}, sheet ${sheet}` : file.name,
          isText: false,
          read: ({ headerRow }: Dressed) => atOnce(book.value.read(sheet, headerRow)),
          glance: () => atOnce(book.value.read(sheet)),
        })),
      );
    }
    case 'geojson':
    case 'kml':
    case 'kmz':
    case 'gpx':
    case 'shapefile': {
      const tables = openDrawing(file.name, await bytes(), kind.kind);
      if (!tables.ok) return tables;
      return ok(
        tables.value.map((table) => ({
          name: table.name,
          isText: false,
          read: () => atOnce(ok(table)),
          glance: () => atOnce(ok(table)),
        })),
      );
    }
    case 'site':
    case 'descriptor':
      return fail(`${file.name} is a whole site: open it with Open.`);
    case 'image':
    case 'tiles':
      return fail(`${file.name} is a picture: no rows can be taken from it.`);
    case 'refused':
      return fail(`${file.name} is not opened: ${kind.why}.`);
  }
}

/** A block pasted from a spreadsheet or a mail. */
export const pastedCandidate = (text: string): Candidate => ({
  name: 'what was pasted',
  isText: true,
  read: (dressed) => atOnce(readDelimitedText('what was pasted', text, dressed)),
  glance: () => atOnce(readDelimitedText('what was pasted', text)),
});
