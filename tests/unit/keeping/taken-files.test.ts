import { expect, test } from 'vitest';
import { lineOf, type ImportedFile, type JournalLine } from '../../../src/io/keeping/journal';
import { accountSaid, filesTaken } from '../../../src/app/import/files-taken';
import { leftOutSaid } from '../../../src/app/import/left-out';
import { takenFiles } from '../../../src/io/keeping/taken-files';

const lab: ImportedFile = {
  name: 'lab.csv',
  sha256: 'ab12',
  rows: 60,
  taken: 54,
  refused: 5,
  blank: 1,
};
const taken = { ...lab, when: '2026-05-31T14:05:00Z' };
const line = (more: Partial<JournalLine>) =>
  lineOf({ when: '2026-05-31T14:05:00Z', who: null, did: 'edit', label: 'Take lab.csv', ...more });

test('a file taken in is told of with the rows it refused', () => {
  const lines = [line({ label: 'Write 8.30 at DP-3' }), line({ files: [lab] })];
  expect(takenFiles(lines)).toEqual([taken]);
});

test('one whose taking was undone is not, until it is done again', () => {
  const lines = [line({ files: [lab] }), line({ did: 'undo' })];
  expect(takenFiles(lines)).toEqual([]);
  expect(takenFiles([...lines, line({ did: 'redo' })])).toEqual([taken]);
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
  expect(takenFiles(['{"files": 3', '', line({ files: [lab] })])).toEqual([taken]);
});

test('files of a site that came with a journal are told with those taken since, the last first', () => {
  const journal = new TextEncoder().encode(`${line({ files: [lab] })}\n`);
  const since = line({ files: [{ ...lab, name: 'levels.csv', rows: 9, taken: 9, refused: 0, blank: 0 }] }); // prettier-ignore
  const all = filesTaken({
    files: new Map([['journal.jsonl', journal]]),
    keeper: { whole: { lines: [since] } } as never,
  });
  expect(all.map((file) => `${file.name}: ${accountSaid(file)}`)).toEqual([
    'levels.csv: 9 of 9 rows taken',
    'lab.csv: 54 of 60 rows taken, 5 refused, 1 blank',
  ]);
});

test('a file left out is not said to be absent where the site has its rows', () => {
  const account = {
    rows: 9,
    taken: 8,
    added: 0,
    same: 8,
    changed: 0,
    refused: 1,
    waiting: 0,
    blank: 0,
  };
  expect(leftOutSaid(account)).toBe(
    'Left out: nothing was taken from it. The site already has 8 of its 9 rows.',
  );
  expect(leftOutSaid({ ...account, same: 0, added: 8 })).toBe(
    'Left out: none of its 9 rows was taken.',
  );
});
