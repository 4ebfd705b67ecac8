import { expect, test } from 'vitest';
import { levelSetsOf, resultsOf } from '../../../src/domain/lab/site-results';
import { raisedByParticles } from '../../../src/domain/lab/turbid';
import { turbidItems } from '../../../src/map/scene/from-turbid';
import { siteFrom } from '../site-from';

const result = (cas: string, name: string, fraction: string) =>
  `A,${cas},${name},${fraction},,initial,12,µg/L,yes,,,,`;

/** A well sampled at noon, the last reading before it 35 NTU. */
const siteOf = (purged = '2025-09-16T11:58,35') =>
  siteFrom({
    events: ['id,title,first_day,last_day', 'E1,Round,2025-09-15,2025-09-19'],
    locations: ['id,easting,northing,kind,status', 'W,0,0,monitoring well,installed'],
    screens: ['id,location,tip_depth,tool_offset,exposed_length,zone', 'W-S,W,20,0,5,sand'],
    purge_readings: ['screen,event,time,turbidity', `W-S,E1,${purged}`],
    samples: ['id,screen,event,time,kind', 'A,W-S,E1,2025-09-16T12:00,field sample'],
    results: [
      'sample,cas,analyte,fraction,method,run,value,unit,detected,lab_qualifier,validation_qualifier,detection_limit,reporting_limit',
      result('7439-92-1', 'Lead', 'total'),
      result('7439-92-1', 'Lead', 'dissolved'),
      result('50-32-8', 'Benzo(a)pyrene', 'total'),
      result('71-43-2', 'Benzene', 'total'),
    ],
    screening_levels: ['set,cas,analyte,value,unit', 'S,7439-92-1,Lead,15,µg/L'],
  });

const raised = (site = siteOf()) =>
  resultsOf(site).used.flatMap((one) =>
    raisedByParticles(site, one) ? [`${one.row.analyte} ${one.row.fraction ?? ''}`] : [],
  );

test('in turbid water total metals and what clings to particles are in doubt, nothing else', () => {
  expect(raised()).toEqual(['Lead total', 'Benzo(a)pyrene total']);
  expect(raised(siteOf('2025-09-16T11:58,6'))).toEqual([]);
  expect(raised(siteOf('2025-09-16T12:30,80'))).toEqual([]);
});

test('the doubt stands on the map beside the point', () => {
  const site = siteOf();
  const judge = levelSetsOf(site).get('S')?.judge;
  if (!judge) throw new Error('there is a set');
  const shown = resultsOf(site).used.map((one) => ({ ...one, judged: judge(one.reading) }));
  expect(turbidItems(site, shown)).toMatchObject([{ who: 'W', text: 'turbid' }]);
  expect(
    turbidItems(
      site,
      shown.filter(({ row }) => row.analyte === 'Benzene'),
    ),
  ).toEqual([]);
});
