import type { Role } from '../look/look';
import type { LayerId } from './layers';
import type { SymbolName } from './symbols';

/**
 * What is on a drawing, as plain data: places in the site's grid, sizes in px.
 * Two painters take it, MapLibre on the screen and SVG on sheets, in legends
 * and where there is no WebGL, so that what is printed is what was seen.
 */
export type Scene = readonly Item[];

/** East and north in the site's grid, in metres. */
export type Place = readonly [east: number, north: number];

/** A rectangle of the site's grid, in metres. */
export type Extent = {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
};

type Common = {
  readonly layer: LayerId;
  /** Id of what it stands for, for whoever clicks it; absent where there is nothing to open. */
  readonly who?: string;
  /** What it means, in the words of the legend; absent where the legend need not say. */
  readonly means?: string;
};

/** A shape of constant size. */
export type SymbolItem = Common & {
  readonly kind: 'symbol';
  readonly at: Place;
  readonly shape: SymbolName;
  /** Side of its box in px. */
  readonly size: number;
  readonly colour: Role;
  /** px right and down of `at`. */
  readonly offset?: readonly [right: number, down: number];
  /** Degrees clockwise; the shape is drawn with its top to the north. */
  readonly turned?: number;
};

export type Dash = 'solid' | 'dashed' | 'long' | 'dotted' | 'dash-dot';

/** Lengths of ink and gap, in weights of the line. */
export const DASHES: Readonly<Record<Exclude<Dash, 'solid'>, readonly number[]>> = {
  dashed: [4, 3],
  long: [10, 4],
  dotted: [1, 2.5],
  'dash-dot': [9, 3, 1.5, 3],
};

/** A line, by the places it runs through. */
export type LineItem = Common & {
  readonly kind: 'line';
  readonly path: readonly Place[];
  /** px */
  readonly weight: number;
  readonly colour: Role;
  readonly dash?: Dash;
  /** px of paper left free along both sides. */
  readonly casing?: number;
};

export type Hatch = 'diagonal' | 'crossed' | 'dots' | 'ripple';

/** A polygon, or several under one name: each an outer ring and its holes, rings closed. */
export type AreaItem = Common & {
  readonly kind: 'area';
  readonly polygons: readonly (readonly (readonly Place[])[])[];
  readonly fill?: Role;
  readonly hatch?: { readonly pattern: Hatch; readonly colour: Role };
};

/** Where words stand, seen from their place. */
export type Side = 'centre' | 'n' | 'ne' | 'e' | 'se' | 's' | 'sw' | 'w' | 'nw';

export type Face = 'regular' | 'semibold' | 'italic';

/** Words at a place, on whichever of their sides has room. */
export type TextItem = Common & {
  readonly kind: 'text';
  readonly at: Place;
  /** Lines are parted by "\n". */
  readonly text: string;
  /** Sides to try, best first. */
  readonly sides: readonly Side[];
  /** px between the place and the words. */
  readonly away: number;
  /** px further off to try in turn, where no side is free. */
  readonly further?: readonly number[];
  /** In place of these, where each was looked at: sides and px further off, best first. */
  readonly stands?: readonly { readonly side: Side; readonly further: number }[];
  /** px */
  readonly size: number;
  readonly face: Face;
  readonly colour: Role;
  /** Lower takes its room first. */
  readonly priority: number;
  /** Drawn even over other words. */
  readonly always?: boolean;
  /** A shape standing before each line of the words, as high as they are. */
  readonly mark?: SymbolName;
  /** Degrees clockwise, for words along a line; their sides turn with them. */
  readonly turned?: number;
  /** The line they are the name of, along which they may stand elsewhere. */
  readonly along?: readonly Place[];
};

export type ArrowItem = Common & {
  readonly kind: 'arrow';
  readonly tail: Place;
  readonly head: Place;
  /** px across the shaft; the point is in proportion. */
  readonly width: number;
  readonly colour: Role;
};

/** A sector of a circle: the directions an arrow could have. */
export type FanItem = Common & {
  readonly kind: 'fan';
  readonly apex: Place;
  /** Degrees clockwise from grid north. */
  readonly azimuth: number;
  /** Degrees to either side. */
  readonly halfAngle: number;
  /** metres */
  readonly radius: number;
  readonly colour: Role;
  readonly fill: Role;
};

/** An upright bar standing on its place, or hanging from it when the height is negative. */
export type BarItem = Common & {
  readonly kind: 'bar';
  readonly at: Place;
  /** px, positive up. */
  readonly height: number;
  /** px */
  readonly width: number;
  readonly colour: Role;
};

/** A picture laid on the grid by its corners: a site plan, an air photo. */
export type ImageItem = Common & {
  readonly kind: 'image';
  /** Top left, top right, bottom right, bottom left: a rectangle of the picture, turned and scaled. */
  readonly corners: readonly [Place, Place, Place, Place];
  /** As in its file: PNG, JPEG or WebP. Nothing is fetched for it. */
  readonly bytes: Uint8Array;
  readonly type: 'image/png' | 'image/jpeg' | 'image/webp';
  /** 0 to 1 */
  readonly opacity: number;
};

/** One thing drawn. Places are in grid metres; what is not a place is in px of the screen, unless said. */
export type Item =
  SymbolItem | LineItem | AreaItem | TextItem | ArrowItem | FanItem | BarItem | ImageItem;

/** The places an item is drawn from, in the order of its own lists. */
export function placesOf(item: Item): readonly Place[] {
  switch (item.kind) {
    case 'symbol':
    case 'text':
    case 'bar':
      return [item.at];
    case 'line':
      return item.path;
    case 'area':
      return item.polygons.flat(2);
    case 'image':
      return item.corners;
    case 'arrow':
      return [item.tail, item.head];
    case 'fan': {
      const { apex, radius } = item;
      return [apex, [apex[0] - radius, apex[1] - radius], [apex[0] + radius, apex[1] + radius]];
    }
  }
}

/** The rectangle around places; null when there are none. */
export function extentOf(places: Iterable<Place>): Extent | null {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [e, n] of places) {
    west = Math.min(west, e);
    east = Math.max(east, e);
    south = Math.min(south, n);
    north = Math.max(north, n);
  }
  return west <= east ? { west, south, east, north } : null;
}

export const samePlace = (one: Place, other: Place) => one[0] === other[0] && one[1] === other[1];

/** What of a scene can be seen in a window: all but what lies beside it. */
export const inView = (scene: Scene, { west, south, east, north }: Extent): Scene =>
  scene.filter((item) => {
    const around = extentOf(placesOf(item));
    if (!around) return false;
    const isBeside = around.east < west || around.west > east;
    return !isBeside && around.north >= south && around.south <= north;
  });

/** An extent with room around it: `share` of its longer side, and never less than `least` metres. */
export function withRoom(extent: Extent, share: number, least = 1): Extent {
  const { west, south, east, north } = extent;
  const room = Math.max(share * Math.max(east - west, north - south), least);
  return { west: west - room, south: south - room, east: east + room, north: north + room };
}

export const centreOf = ({ west, south, east, north }: Extent): Place => [
  (west + east) / 2,
  (south + north) / 2,
];

/** An extent about the same centre, its sides multiplied. */
export function resized(extent: Extent, by: number): Extent {
  const [e, n] = centreOf(extent);
  const [w, h] = [((extent.east - extent.west) * by) / 2, ((extent.north - extent.south) * by) / 2];
  return { west: e - w, south: n - h, east: e + w, north: n + h };
}
