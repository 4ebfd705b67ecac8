import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { tablesPage } from '../../../src/domain/site/tables-page';
import { TOP } from '../folder';

const PAGE = join(TOP, 'demo-sites/TABLES.md');

// To write the page anew: WRITE_PAGES=1 npx vitest run tests/unit/site/tables-page.test.ts
if (process.env.WRITE_PAGES) writeFileSync(PAGE, tablesPage());

test('the page that documents the tables says what the reader does', () => {
  expect(readFileSync(PAGE, 'utf8')).toBe(tablesPage());
});
