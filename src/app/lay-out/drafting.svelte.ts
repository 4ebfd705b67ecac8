import { distanceBetween } from '../../domain/geometry/compass';
import { shapeArea, shapeLength, lineLength } from '../../domain/geometry/measure';
import { nearestOnPiece } from '../../domain/geometry/nearest';
import { piecesOfLine, sidesOfRing, type XY } from '../../domain/geometry/shape';
import { readShape, writeShape } from '../../domain/geometry/wkt';
import {
  cornersToChange,
  FORMS,
  freeId,
  rounded,
  shapeOf,
  snapOf,
  type Form,
  type Snap,
} from '../../domain/layout/drawing';
import type { Edit } from '../../domain/site/edits/apply';
import type { Feature } from '../../domain/site/schema';
import { inUnits, metres, type Metres } from '../../domain/units';
import type { OpenSite } from '../open-site.svelte';
import type { MapTool } from './map-tool';

/** What is typed of a feature beside its outline, as it will stand in its cells. */
export type Attributes = {
  name: string;
  carries: string;
  width: string;
  buffer: string;
  note: string;
};

const BLANK: Attributes = { name: '', carries: '', width: '', buffer: '', note: '' };

/** A feature being drawn or changed. Places in the grid's unit. Nothing of it is in the site before it is kept. */
export class Drafting {
  #site: OpenSite;
  /** What is being drawn; null while nothing is. */
  kind: Feature['kind'] | null = $state(null);
  form: Form = $state('area');
  attributes = $state<Attributes>({ ...BLANK });
  corners: readonly XY[] = $state.raw([]);
  /** Where the next corner would go. */
  pointer: XY | null = $state.raw(null);
  /** What the pointer was drawn to. */
  snappedTo: Snap | null = $state.raw(null);
  snapping = $state(true);
  /** The feature being changed; null for a new one. */
  changing: Feature | null = $state.raw(null);
  /** Its outline has several parts or holes, and is left as it is. */
  outlineFixed = $state(false);
  #held: number | null = null;
  /** The corners of what is changed, as they were. */
  #before: readonly XY[] | null = null;

  constructor(site: OpenSite) {
    this.#site = site;
  }

  get #unit() {
    return this.#site.site.settings.grid.unit;
  }

  readonly shape = $derived.by(() => shapeOf(this.form, this.corners));
  readonly length = $derived.by(() =>
    this.shape.ok ? shapeLength(this.shape.value) : lineLength(this.corners),
  );
  readonly area = $derived.by(() => (this.shape.ok ? shapeArea(this.shape.value) : 0));
  /** From the last corner to the pointer. */
  readonly leg = $derived.by(() => {
    const last = this.corners.at(-1);
    return last && this.pointer ? distanceBetween(last, this.pointer) : null;
  });
  readonly badNumber = $derived.by(() =>
    (['width', 'buffer'] as const).find(
      (field) => this.attributes[field].trim() !== '' && !(Number(this.attributes[field]) >= 0),
    ),
  );
  readonly canKeep = $derived.by(
    () => (this.outlineFixed || this.shape.ok) && this.badNumber === undefined,
  );

  /** Shapes a corner can be drawn to: all that is drawn, but what is being changed. */
  readonly #around = $derived.by(() =>
    this.#site.site.features.flatMap((feature) => {
      if (feature.row === this.changing?.row) return [];
      const read = readShape(feature.shape);
      return read.ok ? [read.value] : [];
    }),
  );

  begin(kind: Feature['kind']) {
    this.stop();
    this.kind = kind;
    this.form = FORMS[kind][0] ?? 'area';
  }

  change(feature: Feature) {
    this.stop();
    const read = readShape(feature.shape);
    const outline = read.ok ? cornersToChange(read.value) : null;
    this.kind = feature.kind;
    this.changing = feature;
    this.outlineFixed = read.ok && !outline;
    this.form = outline?.form ?? FORMS[feature.kind][0] ?? 'area';
    this.corners = outline?.corners ?? [];
    this.#before = this.corners;
    this.attributes = {
      name: feature.name ?? '',
      carries: feature.carries ?? '',
      width: feature.width?.text ?? '',
      buffer: feature.buffer?.text ?? '',
      note: feature.note ?? '',
    };
  }

  stop = () => {
    this.kind = null;
    this.changing = null;
    this.#before = null;
    this.outlineFixed = false;
    this.corners = [];
    this.pointer = null;
    this.snappedTo = null;
    this.attributes = { ...BLANK };
    this.#held = null;
  };

  add(at: XY) {
    this.corners = this.form === 'point' ? [rounded(at)] : [...this.corners, rounded(at)];
  }

  move(corner: number, to: XY) {
    this.corners = this.corners.with(corner, rounded(to));
  }

  remove(corner: number) {
    this.corners = this.corners.toSpliced(corner, 1);
  }

  /** A corner put in after another, halfway to the next. */
  halve(corner: number) {
    const [a, b] = [this.corners[corner], this.corners[(corner + 1) % this.corners.length]];
    if (!a || !b) return;
    const middle = rounded([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
    this.corners = this.corners.toSpliced(corner + 1, 0, middle);
  }

  /** Put into the site as one step to undo; whether it was. */
  keep(): boolean {
    const edit = this.#edit();
    if (!edit || this.kind === null) return false;
    const what = this.attributes.name.trim() || this.kind;
    const made = this.#site.edit(`${this.changing ? 'Change' : 'Draw'} ${what}`, edit);
    if (made.ok) this.stop();
    return made.ok;
  }

  /** Take a drawn feature out of the site. */
  erase(feature: Feature) {
    if (this.changing?.row === feature.row) this.stop();
    return this.#site.edit(`Erase ${feature.name ?? feature.kind}`, {
      kind: 'remove-rows',
      table: 'features',
      rows: [feature.row - 2],
    });
  }

  #edit(): Edit | null {
    const { kind, changing } = this;
    if (kind === null || !this.canKeep) return null;
    const text = this.shape.ok ? writeShape(this.shape.value) : (changing?.shape ?? null);
    if (text === null) return null;
    const cells: Record<string, string> = {
      kind,
      // An outline nobody touched keeps its own text.
      shape:
        changing && (this.outlineFixed || this.corners === this.#before) ? changing.shape : text,
    };
    for (const [column, value] of Object.entries(this.attributes)) cells[column] = value.trim();
    if (!changing) {
      const ids = this.#site.site.features.map(({ id }) => id);
      return { kind: 'add-rows', table: 'features', rows: [{ id: freeId('F', ids), ...cells }] };
    }
    const row = changing.row - 2;
    return {
      kind: 'write-cells',
      table: 'features',
      cells: Object.entries(cells).map(([column, value]) => ({ row, column, text: value })),
    };
  }

  /** The draft under the pointer and the finger; places in metres. */
  readonly tool: MapTool = {
    press: (at, reach) => {
      const place = this.#toGrid(at);
      const near = this.#length(reach);
      if (this.outlineFixed || this.#cornerAt(place, near) !== null) return;
      this.add(this.#snapped(place, near));
    },
    point: (at, reach) => {
      if (at === null) [this.pointer, this.snappedTo] = [null, null];
      else this.pointer = this.#snapped(this.#toGrid(at), this.#length(reach));
    },
    grab: (at, reach) => {
      if (this.outlineFixed) return false;
      this.#held = this.#cornerAt(this.#toGrid(at), this.#length(reach));
      return this.#held !== null;
    },
    drag: (at, reach) => {
      if (this.#held !== null)
        this.move(this.#held, this.#snapped(this.#toGrid(at), this.#length(reach)));
    },
    drop: () => (this.#held = null),
  };

  #toGrid = ([east, north]: XY): XY => [this.#length(east), this.#length(north)];
  #length = (n: number) => inUnits(n as Metres, this.#unit);

  #snapped(place: XY, reach: number): XY {
    this.snappedTo = this.snapping ? snapOf(place, this.#around, reach) : null;
    return rounded(this.snappedTo?.at ?? place);
  }

  #cornerAt(place: XY, reach: number): number | null {
    const apart = this.corners.map((corner) => distanceBetween(corner, place));
    const least = Math.min(...apart);
    return least <= reach ? apart.indexOf(least) : null;
  }

  /** A corner put in on the side nearest to a place, for an outline that is there already. */
  insert(place: XY) {
    const sides = this.form === 'area' ? sidesOfRing(this.corners) : piecesOfLine(this.corners);
    const apart = sides.map((piece) => nearestOnPiece(place, piece).distance);
    const nearest = apart.indexOf(Math.min(...apart));
    this.corners = this.corners.toSpliced(nearest + 1, 0, rounded(place));
  }

  /** Corners and pointer in metres, for the map. */
  readonly inMetres = $derived.by(() => {
    const at = ([e, n]: XY): XY => [metres(e, this.#unit), metres(n, this.#unit)];
    return { corners: this.corners.map(at), pointer: this.pointer && at(this.pointer) };
  });
}
