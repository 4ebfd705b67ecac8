import { expect, test } from 'vitest';
import { placeImage } from '../../../src/domain/picture-place';
import { picturesOf, withPictures, type Picture } from '../../../src/domain/site/pictures';
import { PALETTES } from '../../../src/map/look/look';
import { pictureItems } from '../../../src/map/scene/from-pictures';
import { legendOf } from '../../../src/map/scene/legend';
import { drawSvg } from '../../../src/map/scene/svg';

// A plan of 200 by 100 dots, 0.5 m to a dot, its top to the north, its upper left at 0 E, 50 N.
const plan: Picture = {
  path: 'images/plan.png',
  title: 'Plan of the yard',
  type: 'image/png',
  size: { width: 200, height: 100 },
  marks: [
    { name: 'A', dots: [0, 0], grid: [0, 50] },
    { name: 'B', dots: [200, 0], grid: [100, 50] },
    { name: 'C', dots: [200, 100], grid: [100, 0] },
  ],
  opacity: 0.6,
  shown: true,
};
const bytes = new Uint8Array([137, 80, 78, 71]);
const laid = (picture: Picture) => {
  const placed = placeImage(picture.size, picture.marks, 'm');
  if (!placed.ok) throw new Error(placed.problem.kind);
  return [{ picture, bytes, placed: placed.value }];
};

test('on a drawing of 2 px to a metre the plan covers it from its upper left: by pencil', () => {
  const drawing = drawSvg(pictureItems(laid(plan), 'm'), {
    extent: { west: 0, south: 0, east: 100, north: 50 },
    width: 200,
    height: 100,
    palette: PALETTES.bright,
    name: 'test',
  });
  expect(drawing.nodes).toEqual([
    {
      tag: 'image',
      attributes: {
        href: 'data:image/png;base64,iVBORw==',
        width: 1,
        height: 1,
        preserveAspectRatio: 'none',
        opacity: 0.6,
        transform: 'matrix(200 0 0 100 0 0)',
      },
    },
  ]);
});

test('turned a quarter clockwise on the ground, its right is south and its foot west', () => {
  const turned: Picture = {
    ...plan,
    marks: [
      { name: 'A', dots: [0, 0], grid: [50, 100] },
      { name: 'B', dots: [200, 0], grid: [50, 0] },
    ],
  };
  const drawing = drawSvg(pictureItems(laid(turned), 'm'), {
    extent: { west: 0, south: 0, east: 100, north: 100 },
    width: 100,
    height: 100,
    palette: PALETTES.bright,
    name: 'test',
  });
  // Across the picture: 100 px down the drawing; down the picture: 50 px to its left.
  expect(drawing.nodes[0]?.attributes.transform).toBe('matrix(0 100 -50 0 50 0)');
});

test('the legend names it and by how many marks it is placed; hidden, it is neither drawn nor named', () => {
  expect(legendOf(pictureItems(laid(plan), 'm')).map(({ means }) => means)).toEqual([
    'Plan of the yard: placed by 3 control points',
  ]);
  expect(pictureItems(laid({ ...plan, shown: false }), 'm')).toEqual([]);
});

test('stands in the descriptor as a resource with its control points, and other resources stay', () => {
  const before = { name: 'site', resources: [{ name: 'locations', path: 'locations.csv' }, 'odd'] };
  const after = withPictures(before, [plan]);
  expect(JSON.parse(JSON.stringify(after))).toMatchObject({
    resources: [
      { name: 'locations', path: 'locations.csv' },
      'odd',
      { path: 'images/plan.png', mediatype: 'image/png', placed: { width: 200, opacity: 0.6 } },
    ],
  });
  expect(picturesOf(after)).toEqual([plan]);
  expect(withPictures(after, [])).toEqual(before);
});

test('a resource that climbs out of images, or whose marks are no numbers, is no picture', () => {
  const [resource] = (withPictures({}, [plan]) as { resources: Record<string, unknown>[] }).resources; // prettier-ignore
  for (const wrong of [
    { ...resource, path: 'plan.png' },
    { ...resource, mediatype: 'image/svg+xml' },
    { ...resource, placed: { width: 1, height: 1, marks: [{ name: 'A', dots: ['x', 0], grid: [0, 0] }] } }, // prettier-ignore
  ])
    expect(picturesOf({ resources: [wrong] })).toEqual([]);
});
