import { strToU8 } from 'fflate';
import { expect, test } from 'vitest';
import { placeImage } from '../../../src/domain/picture-place';
import type { ImageMark } from '../../../src/domain/site/pictures';
import { imageSize } from '../../../src/io/formats/image';

const bytes = (...parts: readonly (string | readonly number[])[]) =>
  new Uint8Array(parts.flatMap((part) => (typeof part === 'string' ? [...strToU8(part)] : part)));

const chunk = (width: number, height: number) => {
  const view = new DataView(new ArrayBuffer(8));
  view.setUint32(0, width);
  view.setUint32(4, height);
  return [...new Uint8Array(view.buffer)];
};

const png = (width: number, height: number) =>
  bytes(
    [0x89],
    'PNG\r\n',
    [0x1a, 0x0a, 0, 0, 0, 13],
    'IHDR',
    chunk(width, height),
    [8, 6, 0, 0, 0],
  );

test.each([
  ['PNG', png(640, 480)],
  // A frame header after an application segment and a comment (ITU-T T.81, B.2).
  ['JPEG', bytes([0xff, 0xd8, 0xff, 0xe0, 0, 4, 1, 2, 0xff, 0xfe, 0, 5, 65, 66, 67, 0xff, 0xc2, 0, 17, 8, 1, 0xe0, 2, 0x80, 3, 1, 0x22, 0])], // prettier-ignore
  // RFC 9649: lossy (14 bits each), lossless (14 bits less one), extended (24 bits less one).
  ['WebP, lossy', bytes('RIFF', [0, 0, 0, 0], 'WEBPVP8 ', [0, 0, 0, 0, 0, 0, 0, 0x9d, 0x01, 0x2a, 0x80, 0x02, 0xe0, 0x01, 0, 0])], // prettier-ignore
  ['WebP, lossless', bytes('RIFF', [0, 0, 0, 0], 'WEBPVP8L', [0, 0, 0, 0, 0x2f, 0x7f, 0xc2, 0x77, 0, 0, 0, 0, 0, 0])], // prettier-ignore
  ['WebP, extended', bytes('RIFF', [0, 0, 0, 0], 'WEBPVP8X', [10, 0, 0, 0, 0, 0, 0, 0, 0x7f, 2, 0, 0xdf, 1, 0])], // prettier-ignore
])('%s of 640 by 480 dots', (_, image) => {
  expect(imageSize('plan', image)).toMatchObject({ ok: true, value: { width: 640, height: 480 } });
});

test.each([
  ['a picture of a hundred thousand dots a side', png(100_000, 100_000)],
  ['a picture of no width', png(0, 10)],
  [
    'a drawing with a script in it',
    bytes('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'),
  ],
  ['a JPEG that ends in its header', bytes([0xff, 0xd8, 0xff, 0xe0, 0xff, 0xff])],
  ['nothing', new Uint8Array()],
])('%s is refused', (_, image) => {
  expect(imageSize('plan', image).ok).toBe(false);
});

// A plan at 1 dot to 0.5 ft, turned 30° clockwise, its top left corner at 2,000,000 E, 600,000 N:
// what pencil and paper give. Right is azimuth 120°, down is azimuth 210°.
const at = (right: number, down: number): ImageMark => {
  const [sin, cos] = [Math.sin(Math.PI / 6), Math.cos(Math.PI / 6)];
  return {
    name: `${right},${down}`,
    dots: [right, down],
    grid: [
      2_000_000 + 0.5 * (right * cos - down * sin),
      600_000 - 0.5 * (right * sin + down * cos),
    ],
  };
};

test('a plan placed by three marks lies where they say, its residuals nought', () => {
  const placed = placeImage({ width: 800, height: 600 }, [at(0, 0), at(800, 0), at(300, 500)], 'us-ft'); // prettier-ignore
  if (!placed.ok) throw new Error(placed.problem.kind);
  const expected = [at(0, 0), at(800, 0), at(800, 600), at(0, 600)].map(({ grid }) => grid);
  placed.value.corners.forEach(([easting, northing], i) => {
    expect(easting).toBeCloseTo(expected[i]?.[0] ?? NaN, 3);
    expect(northing).toBeCloseTo(expected[i]?.[1] ?? NaN, 3);
  });
  for (const { distance } of placed.value.fit.residuals) expect(distance).toBeLessThan(1e-6);
  expect(placed.value.fit.tie.rotation).toBeCloseTo(30, 6);
});

test('a mark set wrong shows in the residuals; one mark is too few', () => {
  const wrong: ImageMark = { ...at(300, 500), grid: [2_000_100, 599_800] };
  const placed = placeImage({ width: 800, height: 600 }, [at(0, 0), at(800, 0), at(800, 600), wrong], 'us-ft'); // prettier-ignore
  const largest = placed.ok ? placed.value.fit.residuals.toSorted((a, b) => b.distance - a.distance)[0] : null; // prettier-ignore
  expect(largest?.name).toBe('300,500');
  expect(placeImage({ width: 8, height: 6 }, [at(0, 0)], 'm')).toMatchObject({ ok: false, problem: { kind: 'too-few-points' } }); // prettier-ignore
});
