import { expect, test } from 'vitest';
import { strToU8, zipSync } from 'fflate';
import { eachRow } from '../../../src/domain/site/table';
import { openWorkbook } from '../../../src/io/import/read-workbook';
import { bytesOfFile } from './target';

// A workbook made with openpyxl 3.1.5 (tests/fixtures/files/make.py), whose formulas have no
// values: a spreadsheet writes those when it saves.
const GAUGING = bytesOfFile(new URL('../../fixtures/files/gauging.xlsx', import.meta.url));

const opened = async (name: string, bytes: Uint8Array) => {
  const workbook = await openWorkbook(name, bytes);
  if (!workbook.ok) throw new Error(workbook.problem);
  return workbook.value;
};

test('a sheet is chosen by name; its title lines, dates, clocks and numbers are read', async () => {
  const workbook = await opened('gauging.xlsx', GAUGING);
  expect(workbook.sheets).toEqual(['Cover', 'Gauging']);
  const read = await workbook.read('Gauging');
  if (!read.ok) throw new Error(read.problem);
  expect(read.value.name).toBe('gauging.xlsx, sheet Gauging');
  expect(read.value.headerRow).toBe(3);
  expect(read.value.headings).toEqual(['Well', 'Date', 'Time', 'DTW (ft)', 'Sum', 'Seen', 'Note']);
  expect([...eachRow(read.value.table)]).toEqual([
    ['MW-1', '2025-03-31', '14:05', '8.31', '', 'yes', '=1+1 typed'],
    ['MW-2', '2025-04-01T09:30', '', '7.9', '', 'no', ''],
    ['', '', '', '', '', '', ''],
    // 0.1 + 0.2 is stored with 17 digits; a spreadsheet shows 15.
    ['MW-3', '4/1/2025', '', '0.3', '', '', 'two\nlines'],
  ]);
});

test('what is no workbook is said to be none', async () => {
  expect(await openWorkbook('a.xlsx', strToU8('not a zip'))).toEqual({
    ok: false,
    problem: 'a.xlsx is not opened: it is cut short, or is no zip.',
  });
  const other = zipSync({ 'readme.txt': strToU8('hello') });
  const made = await openWorkbook('b.xlsx', other);
  expect(made.ok).toBe(false);
});

const sheet = (cells: string) =>
  `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${cells}</sheetData></worksheet>`; // prettier-ignore

const workbookOf = (cells: string) =>
  zipSync({
    'xl/workbook.xml': strToU8(
      '<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="A" sheetId="1" r:id="rId1"/></sheets></workbook>', // prettier-ignore
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>', // prettier-ignore
    ),
    'xl/worksheets/sheet1.xml': strToU8(sheet(cells)),
  });

test('a formula gives the value it was saved with, and an error is said', async () => {
  const bytes = workbookOf(
    '<row r="1"><c r="A1" t="inlineStr"><is><t>Well</t></is></c><c r="B1" t="inlineStr"><is><t>DTW</t></is></c></row>' + // prettier-ignore
      '<row r="2"><c r="A2" t="str"><f>CONCATENATE("MW","-1")</f><v>MW-1</v></c><c r="B2"><f>4+4.31</f><v>8.31</v></c></row>' + // prettier-ignore
      '<row r="3"><c r="A3" t="inlineStr"><is><t>MW-2</t></is></c><c r="B3" t="e"><v>#N/A</v></c></row>', // prettier-ignore
  );
  const read = await (await opened('f.xlsx', bytes)).read('A');
  if (!read.ok) throw new Error(read.problem);
  expect([...eachRow(read.value.table)]).toEqual([
    ['MW-1', '8.31'],
    ['MW-2', ''],
  ]);
  expect(read.value.said).toContain('The workbook has 1 cells with an error such as #N/A; they read as blank.'); // prettier-ignore
});

test('one cell at the far end of a sheet does not make seventeen thousand million', async () => {
  for (const far of ['<c r="XFD1048576"><v>1</v></c>', "<c r='XFD1048576'><v>1</v></c>"]) {
    const started = performance.now();
    const made = await openWorkbook('far.xlsx', workbookOf(`<row>${far}</row>`));
    expect(made.ok).toBe(false);
    expect(performance.now() - started).toBeLessThan(2000);
  }
});

test('a workbook that swells is stopped as it does, whatever its index says of its size', async () => {
  const swollen = zipSync({ 'xl/workbook.xml': new Uint8Array(450 * 2 ** 20) });
  // The index and the local header claim a kilobyte.
  const view = new DataView(swollen.buffer, swollen.byteOffset, swollen.byteLength);
  view.setUint32(22, 1024, true);
  for (let at = swollen.length - 22; at > 0; at--)
    if (view.getUint32(at, true) === 0x02014b50) {
      view.setUint32(at + 24, 1024, true);
      break;
    }
  const made = await openWorkbook('bomb.xlsx', swollen);
  expect(made).toEqual({
    ok: false,
    problem: 'bomb.xlsx is not opened: it swells to more than 400 MB.',
  });
}, 30_000);
