import { savePackage } from '../../src/io/package/save';
import { zipOf } from '../../src/io/package/files';
import { linesOf, type AWell } from '../unit/findings/a-site';
import { packageFrom } from '../unit/site-from';
import { seeded } from '../../src/domain/layout/seeded';

/** Wells anywhere in 2,000 by 1,400 ft, on a plane falling 0.004 toward the south-east but for some hundredths of a foot. */
export const manyWells = (count = 60): AWell[] => {
  const random = seeded(60);
  return Array.from({ length: count }, (_, i) => {
    const [easting, northing] = [1000 + 2000 * random(), 5000 + 1400 * random()];
    const mark = 102.5 + 0.6 * random();
    const head = 98 - 0.0032 * (easting - 1000) + 0.0024 * (northing - 5000);
    return {
      id: `W-${i + 1}`,
      easting: Number(easting.toFixed(1)),
      northing: Number(northing.toFixed(1)),
      mark: mark.toFixed(2),
      depth: (mark - head + 0.05 * (random() - 0.5)).toFixed(2),
      time: `2025-09-01T${String(9 + Math.floor(i / 30)).padStart(2, '0')}:${String(10 + (i % 30)).padStart(2, '0')}`,
      tip: '25.3',
    };
  });
};

/** A zip of a site with so many wells, gauged once. */
export const zipOfWells = (count?: number): Buffer =>
  Buffer.from(zipOf(savePackage(packageFrom(linesOf(manyWells(count)), { title: 'Many wells' }))));
