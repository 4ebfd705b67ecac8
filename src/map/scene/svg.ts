import { groupBy } from '../../domain/group';
import type { Palette, Role } from '../look/look';
import { stretches } from './along';
import { LAYERS } from './layers';
import { placeLabels, type Box, type Label, type PlacedLabel } from './place-labels';
import { magnified, plainly, type PlainItem } from './plain';
import { centreOf, DASHES, type Extent, type LineItem, type Place, type Scene } from './scene';
import { imageNode } from './svg-image';
import { hatchId, hatchNode, short, symbolNode, textNode, type SvgNode } from './svg-parts';

export type Drawing = {
  /** px; on a sheet a px is 1/96 inch. */
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly SvgNode[];
};

export type SvgOptions = {
  /** Shown whole, in the middle; the scale follows from the tighter side. */
  readonly extent: Extent;
  /** px */
  readonly width: number;
  readonly height: number;
  readonly palette: Palette;
  /** Multiplies shapes, lines, hatching and words, not distances. */
  readonly magnify?: number;
  /** Parts the names of patterns of one drawing from those of another on the same page. */
  readonly name: string;
};

/** From the grid to px, for an extent shown whole in the middle of a window. */
export function toPixels({
  extent,
  width,
  height,
}: Pick<SvgOptions, 'extent' | 'width' | 'height'>) {
  const [east, north] = centreOf(extent);
  const scale = Math.min(
    width / (extent.east - extent.west),
    height / (extent.north - extent.south),
  );
  return ([e, n]: Place): readonly [x: number, y: number] => [
    width / 2 + (e - east) * scale,
    height / 2 - (n - north) * scale,
  ];
}

/** What is drawn of a scene, bottom first, its px multiplied. */
function largeItems(scene: Scene, magnify: number): PlainItem[] {
  const byLayer = groupBy(
    scene.flatMap((item) => [...plainly(item)]),
    (item) => item.layer,
  );
  return LAYERS.flatMap((layer) => byLayer.get(layer) ?? []).map((item) =>
    magnified(item, magnify),
  );
}

type Room = Pick<SvgOptions, 'extent' | 'width' | 'height'>;

const placedWords = (
  large: readonly PlainItem[],
  room: Room,
  taken: readonly Box[] = [],
): PlacedLabel[] => {
  const px = toPixels(room);
  return placeLabels(
    labelsOf(large, px),
    [...large.flatMap((item) => boxesOf(item, px)), ...taken],
    { left: 0, top: 0, right: room.width, bottom: room.height },
  );
};

/** Where the words of a scene stand on a drawing of it, px, clear of what lies over it. */
export const wordsPlaced = (
  scene: Scene,
  room: Room,
  magnify: number,
  taken: readonly Box[] = [],
): PlacedLabel[] => placedWords(largeItems(scene, magnify), room, taken);

export function drawSvg(scene: Scene, options: SvgOptions): Drawing {
  const { width, height, palette, magnify = 1, name } = options;
  const px = toPixels(options);
  const large = largeItems(scene, magnify);
  const labels = new Map(placedWords(large, options).map((label) => [label.item, label]));
  const paint = { palette, px, name, labels };
  const hatches = new Map<string, SvgNode>();
  for (const item of large)
    if (item.kind === 'area' && item.hatch)
      hatches.set(
        hatchId(name, item.hatch),
        hatchNode(
          hatchId(name, item.hatch),
          item.hatch.pattern,
          palette[item.hatch.colour],
          magnify,
        ),
      );
  const nodes = large.flatMap((item) => drawn(item, paint));
  return {
    width,
    height,
    nodes: hatches.size
      ? [{ tag: 'defs', attributes: {}, children: [...hatches.values()] }, ...nodes]
      : nodes,
  };
}

type ToPx = ReturnType<typeof toPixels>;

const labelsOf = (items: readonly PlainItem[], px: ToPx): Label[] =>
  items.flatMap((item) => {
    if (item.kind !== 'text') return [];
    const [x, y] = px(item.at);
    return [{ item, x, y }];
  });

/** Words stand clear of a symbol by this share of it. */
const CLEAR = 1.1;

/** Room that labels must leave free. */
function boxesOf(item: PlainItem, px: ToPx): Box[] {
  if (item.kind === 'line' && item.layer === 'keep-clear') return boxesAlong(item, px);
  if (item.kind !== 'symbol' || item.shape === 'selection') return [];
  const [x, y] = px(item.at);
  const [right = 0, down = 0] = item.offset ?? [];
  const half = (item.size / 2) * CLEAR;
  return [
    {
      left: x + right - half,
      right: x + right + half,
      top: y + down - half,
      bottom: y + down + half,
    },
  ];
}

/** Boxes one after the other along a line, as wide as it is. */
const boxesAlong = ({ path, weight }: LineItem, px: ToPx): Box[] =>
  stretches(path).flatMap(([from, to]) => {
    const [[x0, y0], [x1, y1]] = [px(from), px(to)];
    const steps = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0) / weight));
    return Array.from({ length: steps + 1 }, (_, step) => {
      const [x, y] = [x0 + ((x1 - x0) * step) / steps, y0 + ((y1 - y0) * step) / steps];
      const half = weight / 2;
      return { left: x - half, right: x + half, top: y - half, bottom: y + half };
    });
  });

type Paint = {
  readonly palette: Palette;
  readonly px: ToPx;
  readonly name: string;
  readonly labels: ReadonlyMap<unknown, PlacedLabel>;
};

function drawn(item: PlainItem, { palette, px, name, labels }: Paint): SvgNode[] {
  if (item.layer === 'keep-clear') return [];
  const who = item.who === undefined ? {} : { 'data-who': item.who };
  switch (item.kind) {
    case 'symbol': {
      const [x, y] = px(item.at);
      const [right = 0, down = 0] = item.offset ?? [];
      const node = symbolNode(
        item.shape,
        item.size,
        palette[item.colour],
        palette.paper,
        [x + right, y + down],
        item.turned,
      );
      return [{ ...node, attributes: { ...node.attributes, ...who } }];
    }
    case 'line': {
      const d = pathData(item.path.map(px), false);
      const dash = item.dash && item.dash !== 'solid' ? DASHES[item.dash] : null;
      const stroke = (colour: Role, weight: number) => ({
        d,
        fill: 'none',
        stroke: palette[colour],
        'stroke-width': short(weight),
        'stroke-linejoin': 'round',
      });
      const ink: SvgNode = {
        tag: 'path',
        attributes: {
          ...stroke(item.colour, item.weight),
          ...(dash && { 'stroke-dasharray': dash.map((n) => short(n * item.weight)).join(' ') }),
          ...who,
        },
      };
      return item.casing
        ? [{ tag: 'path', attributes: stroke('paper', item.weight + 2 * item.casing) }, ink]
        : [ink];
    }
    case 'area': {
      const d = item.polygons
        .flat()
        .map((ring) => pathData(ring.map(px), true))
        .join('');
      const area = (fill: string): SvgNode => ({
        tag: 'path',
        attributes: { d, fill, 'fill-rule': 'evenodd', ...who },
      });
      return [
        ...(item.fill ? [area(palette[item.fill])] : []),
        ...(item.hatch ? [area(`url(#${hatchId(name, item.hatch)})`)] : []),
      ];
    }
    case 'bar': {
      const [x, y] = px(item.at);
      const [high, wide] = [Math.abs(item.height), item.width];
      return [
        {
          tag: 'rect',
          attributes: {
            x: short(x - wide / 2),
            y: short(item.height > 0 ? y - high : y),
            width: short(wide),
            height: short(high),
            fill: palette[item.colour],
            stroke: palette.paper,
            ...who,
          },
        },
      ];
    }
    case 'image':
      return [imageNode(item, px)];
    case 'text': {
      const label = labels.get(item);
      return label ? [textNode(label, palette, who)] : [];
    }
  }
}

const pathData = (points: readonly (readonly [number, number])[], closed: boolean) =>
  points.map(([x, y], i) => `${i ? 'L' : 'M'}${short(x)} ${short(y)}`).join('') +
  (closed ? 'Z' : '');
