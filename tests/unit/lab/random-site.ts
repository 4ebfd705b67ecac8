import fc from 'fast-check';
import type { Site } from '../../../src/domain/site/site';
import { siteFrom } from '../site-from';
import { result, unit } from './random-results';

const cell = (text: string | null) => {
  const written = text ?? '';
  return written.includes(',') ? `"${written}"` : written;
};
const pick = fc.constantFrom;
const analyte = pick(
  ['71-43-2', 'Benzene'],
  ['', 'TCE'],
  ['79-01-6', 'Trichloroethylene'],
  ['14797-55-8', 'Nitrate'],
  ['14797-55-8', 'Nitrate as N'],
  ['7439-92-1', 'Lead'],
);
const sample = fc.record({
  screen: pick('S1', 'S2', 'S3', ''),
  event: pick('E1', 'E2'),
  kind: pick('field sample', 'field sample', 'field sample', 'field duplicate', 'trip blank'),
  matrix: pick('groundwater', 'groundwater', 'soil', ''),
  laboratory: pick('Lab A', 'Lab B', ''),
  note: pick('', '', 'turbid'),
});
const row = fc.record({
  of: fc.nat(7),
  analyte,
  fraction: pick('', 'total', 'dissolved'),
  method: pick('M1', 'M2'),
  run: pick('', 'initial', 'dilution', 'reanalysis'),
  detected: pick('', '', 'yes', 'no'),
  result,
  unit,
});

/**
 * Sites of three screens with results of two events and two laboratories that mean
 * different things by a letter: diluted runs, blanks, duplicates, soil, turbid water.
 */
export const randomSite: fc.Arbitrary<Site> = fc
  .record({
    samples: fc.array(sample, { minLength: 1, maxLength: 8 }),
    rows: fc.array(row, { maxLength: 40 }),
    equalExceeds: fc.boolean(),
    roundToLevel: fc.boolean(),
  })
  .map(({ samples, rows, equalExceeds, roundToLevel }) => {
    return siteFrom(
      {
        locations: [
          'id,easting,northing,kind,status',
          'P1,0,0,direct push,pushed',
          'P2,9,0,direct push,pushed',
        ],
        screens: ['id,location,tip_depth,zone', 'S1,P1,30,deep', 'S2,P1,10,', 'S3,P2,10,deep'],
        events: ['id,first_day,last_day', 'E1,2025-01-01,2025-01-02', 'E2,2025-06-01,2025-06-02'],
        samples: [
          'id,screen,event,kind,matrix,laboratory,note',
          ...samples.map((one, i) => [`A${i}`, ...Object.values(one)].join(',')),
        ],
        results: [
          'sample,cas,analyte,fraction,method,run,detected,value,unit,lab_qualifier,validation_qualifier,detection_limit,reporting_limit',
          ...rows.map(
            ({ of, analyte: names, fraction, method, run, detected, result: r, unit: u }) =>
              [
                `A${of % (samples.length + 1)}`, // one that is not there among them
                ...names,
                fraction,
                method,
                run,
                detected,
                r.value,
                u,
                r.lab_qualifier,
                r.validation_qualifier,
                r.detection_limit,
                r.reporting_limit,
              ]
                .map(cell)
                .join(','),
          ),
        ],
        screening_levels: [
          'set,cas,analyte,matrix,fraction,value,unit,decides',
          'One,71-43-2,Benzene,,,5,µg/L,',
          'One,79-01-6,Trichloroethylene,water,total,5,µg/L,detection limit',
          'One,14797-55-8,Nitrate (as N),,,10,mg/L,',
          'Two,7439-92-1,Lead,,,0.015,mg/L,detection limit',
        ],
        qualifier_legends: ['laboratory,letter,meaning', 'Lab B,E,estimated'],
      },
      {
        lab: {
          sets: {
            One: { equalExceeds, roundToLevel, decides: 'reporting limit' },
          },
        },
      },
    );
  });
