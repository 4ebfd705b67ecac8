import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { drivenFrom } from '../../../src/domain/layout/driven';
import { intervalOf } from '../../../src/domain/layout/interval';
import { adjusted } from '../../../src/domain/survey/adjustment';
import { closureOf, levelLoop } from '../../../src/domain/survey/level-loop';
import { loopsIn } from '../../../src/domain/survey/shots';
import { inUnits } from '../../../src/domain/units';
import { siteFrom } from '../site-from';

const lines = (table: string) =>
  readFileSync(
    new URL(`../../../demo-sites/osier-bend/${table}.csv`, import.meta.url),
    'utf8',
  ).split('\n');

// Worked by hand: demo-sites/osier-bend/README.md, "The level loop of 2026-04-14".
test('the loop of osier-bend: −0.01 ft, and by distance the new mark of PZ-8 is 971.176', () => {
  const site = siteFrom(
    { survey_shots: lines('survey_shots') },
    { grid: { name: 'Indiana East', code: null, projection: null, unit: 'us-ft' } },
  );
  const loop = levelLoop(loopsIn(site.surveyShots).get('2026-04-14') ?? []);
  if (!loop.ok) throw new Error(loop.problem.kind);
  const closure = closureOf(loop.value);
  expect(closure && inUnits(closure.misclosure.value, 'ft')).toBeCloseTo(-0.01, 9);
  const found = adjusted(loop.value, 'distance', null);
  const mark = found.ok ? found.value.find(({ point }) => point === 'PZ-8-MP2') : undefined;
  expect(mark && inUnits(mark.elevation.value, 'ft')).toBeCloseTo(971.176, 6);
});

test('every reading of a loop cites the cell it was written in; lines out of order are put in order', () => {
  const site = siteFrom({
    survey_shots: [
      'loop,order,point,backsight,foresight,distance,known_elevation',
      'L,2,TP,,3.10,,',
      'L,1,BM,5.00,,,100.00',
      'other,1,BM,1,,,50',
    ],
  });
  const loops = loopsIn(site.surveyShots);
  expect([...loops.keys()]).toEqual(['L', 'other']);
  expect(loops.get('L')?.map(({ point }) => point)).toEqual(['BM', 'TP']);
  expect(loops.get('L')?.[1]?.foresight).toMatchObject({
    text: '3.10',
    from: { kind: 'cell', table: 'survey_shots', row: 2, column: 'foresight' },
  });
});

test('a screen’s row: tip 20.30, offset 0.30, 4 ft open on ground at 100.00', () => {
  const site = siteFrom({
    locations: [
      'id,kind,status,ground_elevation,ground_how',
      'DP-1,direct push,pushed,100.00,surveyed',
      'DP-2,direct push,pushed,100.00,none',
    ],
    screens: [
      'id,location,tip_depth,tool_offset,retraction,screen_length,exposed_length,sounded_depth',
      'DP-1-20,DP-1,20.30,0.30,4.00,4.00,4.00,19.50',
      'DP-2-20,DP-2,20.30,,,,4.00,',
    ],
  });
  const at = (id: string) => {
    const screen = site.screens.get(id);
    if (!screen) throw new Error(id);
    return intervalOf(drivenFrom(screen, site.locations.get(screen.location) ?? null));
  };
  const found = at('DP-1-20');
  if (!found.ok || !found.value.elevation.ok) throw new Error('no interval');
  const { top, base } = found.value.elevation.value;
  expect([top, base].map(({ value }) => inUnits(value, 'ft').toFixed(2))).toEqual([
    '84.00',
    '80.00',
  ]);
  expect(found.value.uncertain).toBe(true); // sounded half a foot high
  expect(base.work.terms[0]?.from).toMatchObject({
    table: 'locations',
    column: 'ground_elevation',
  });
  // A ground elevation said not to be known is not used.
  expect(at('DP-2-20')).toMatchObject({ ok: true, value: { elevation: { ok: false } } });
});
