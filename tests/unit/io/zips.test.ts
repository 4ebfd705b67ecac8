import { zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { crc32 } from '../../../src/io/formats/crc32';
import { openZip, zipOf } from '../../../src/io/package/files';
import { cutShort, filesIn, oneByteChanged } from '../../faults/zips';

const demo = filesIn('demo-sites/quellmoor');

describe('a site’s zip', () => {
  test('comes out as it was packed', () => {
    const opened = openZip(zipOf(demo));
    expect(opened.ok && new Map(opened.value)).toEqual(new Map(demo));
  });

  test('cut short at every kilobyte, it is refused in words each time', () => {
    const { tried, refused, faults } = cutShort(demo);
    expect(faults).toEqual([]);
    expect(refused).toBe(tried);
    expect(tried).toBeGreaterThan(15);
  });

  test('with one byte changed, it is refused or the same: never other numbers', () => {
    const { tried, refused, same, faults } = oneByteChanged(demo, 512);
    expect(faults).toEqual([]);
    expect(refused + same).toBe(tried);
    expect(refused).toBeGreaterThan(0.8 * tried);
  });

  test('a file whose bytes are not those it was packed from is named', () => {
    const zip = zipSync({
      'datapackage.json': [new TextEncoder().encode('{"a": 1}'), { level: 0 }],
    });
    const at = zip.indexOf('1'.charCodeAt(0), 30 + 'datapackage.json'.length);
    zip[at] = '7'.charCodeAt(0);
    expect(openZip(zip)).toEqual({
      ok: false,
      problem: 'This zip is not opened: the file “datapackage.json” in it is damaged.',
    });
  });
});

test('the checksum of 123456789 is CBF43926 (check value of CRC-32, R. N. Williams, 1993, A painless guide to CRC error detection algorithms, value from memory)', () => {
  expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  expect(crc32(new Uint8Array())).toBe(0);
});
