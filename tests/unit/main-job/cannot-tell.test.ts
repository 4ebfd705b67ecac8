/** A non-detect whose limit exceeds the level is never drawn, listed or counted as anything else. */
import { expect, test } from 'vitest';
import { judgedAgainst } from '../../../src/domain/lab/site-results';
import { SHOWN_AT_FIRST } from '../../../src/domain/site/shown';
import { siteScene } from '../../../src/map/site-scene';
import { openFolder } from '../folder';

const { site } = openFolder('demo-sites/osier-bend');
const [levelSet = ''] = site.settings.levelSets;

const told = judgedAgainst(site, levelSet, { fieldSamples: true }).filter(
  ({ row, judged }) => row.value?.includes('25') && judged.outcome.verdict === 'cannot-tell',
);

test('the demo holds a non-detect at 25 against a level of 5', () => {
  expect(told.length).toBeGreaterThan(0);
});

test.each(told)('on the map $screen.id stands as “cannot tell” for $row.analyte', (result) => {
  const { row, sample, location } = result;
  const shown = { ...SHOWN_AT_FIRST, event: sample.event, levelSet, analyte: row.analyte };
  const results = judgedAgainst(site, levelSet, {
    event: sample.event,
    analyte: row.analyte,
    fieldSamples: true,
  });
  const scene = siteScene({ site, shown, heads: [], flow: null, results, construction: [] });
  const marks = scene.filter(({ layer, who }) => layer === 'verdicts' && who === location?.id);
  expect(marks.map((mark) => mark.kind === 'symbol' && mark.shape)).toContain(
    'verdict cannot-tell',
  );
});
