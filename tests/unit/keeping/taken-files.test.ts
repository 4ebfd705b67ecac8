import { expect, test } from 'vitest';
import { lineOf, type ImportedFile, type JournalLine } from '../../../src/io/keeping/journal';
import { takenFiles } from '../../../src/io/keeping/taken-files';

const lab: ImportedFile = {
  name: 'lab.csv',
  sha256: 'ab12',
  rows: 60,
  taken: 54,
  refused: 5,
  blank: 1,
};
const line = (more: Partial<JournalLine>) =>
  lineOf({ when: '2026-05-31T14:05:00Z', who: null, did: 'edit', label: 'Take lab.csv', ...more });

test('a file taken in is told of with the rows it refused', () => {
  const lines = [line({ label: 'Write 8.30 at DP-3' }), line({ files: [lab] })];
  expect(takenFiles(lines)).toEqual([lab]);
});

test('one whose taking was undone is not, until it is done again', () => {
  const lines = [line({ files: [lab] }), line({ did: 'undo' })];
  expect(takenFiles(lines)).toEqual([]);
  expect(takenFiles([...lines, line({ did: 'redo' })])).toEqual([lab]);
});

test('an edit after the undoing leaves nothing to be done again', () => {
  const lines = [
    line({ files: [lab] }),
    line({ did: 'undo' }),
    line({ label: 'Write 8.30 at DP-3' }),
    line({ did: 'redo' }),
  ];
  expect(takenFiles(lines)).toEqual([]);
});

test('lines that are none of ours are passed over', () => {
  expect(takenFiles(['{"files": 3', '', line({ files: [lab] })])).toEqual([lab]);
});
