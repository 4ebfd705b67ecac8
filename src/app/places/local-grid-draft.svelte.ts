import type { EastNorth, Grid } from '../../domain/grid';
import {
  placedOn,
  placingSentence,
  type GridOnEarth,
  type LocalGrid,
  type LocalPlacing,
  type Placed,
} from '../../domain/local-placing';
import { placedWords, residualNumber } from '../../domain/local-words';
import { fail, ok, type Result } from '../../domain/result';
import type { GridDefinition } from '../../domain/site/settings';
import { decimal } from '../../domain/site/read-cell';
import { inUnits, metres, type LengthUnit } from '../../domain/units';
import { openDefined } from '../../io/projection/open-defined';
import { knownPlace, waysToGive, type GivenAs } from './known-place';

/** A mark while it is typed: its place on the local grid, and its known place. */
export type MarkDraft = {
  readonly name: string;
  readonly local: readonly [string, string];
  readonly known: readonly [string, string];
};

export type MarkField = 'name' | 'local east' | 'local north' | 'known east' | 'known north';

const blank = (n: number): MarkDraft => ({ name: `C-${n}`, local: ['', ''], known: ['', ''] });
const isBlank = ({ local, known }: MarkDraft) =>
  [...local, ...known].every((text) => text.trim() === '');

type Laid = { readonly grid: GridDefinition; readonly placed: Placed };

/** A local grid while it is laid on a grid on earth: by control points, or by origin, turn and scale. */
export class LocalGridDraft {
  name = $state('Local grid');
  unit = $state<LengthUnit>('ft');
  on: GridOnEarth | null = $state.raw(null);
  by = $state<LocalPlacing['by']>('control');
  given = $state<GivenAs>('grid');
  marks: readonly MarkDraft[] = $state.raw([1, 2, 3].map(blank));
  isScaleHeld = $state(false);
  rotation = $state('0');
  scale = $state('1');

  /** @param on  the grid it is proposed to lie on */
  constructor(before: GridDefinition | null, on: GridOnEarth | null) {
    this.on = before?.local?.on ?? on;
    if (!before) return;
    this.name = before.name;
    this.unit = before.unit;
    const placing = before.local?.placing;
    if (!placing) return;
    this.by = placing.by;
    if (placing.by === 'control') {
      this.isScaleHeld = placing.scale === 'held';
      this.marks = placing.marks.map(({ name, local, grid }) => ({
        name,
        local: texts(local),
        known: texts(grid),
      }));
      return;
    }
    this.rotation = String(placing.rotation);
    this.scale = String(placing.scale);
    this.marks = [{ name: 'origin', local: texts(placing.local), known: texts(placing.grid) }];
  }

  readonly #grid: Grid | null = $derived.by(() => {
    const opened = this.on ? openDefined(this.on) : null;
    return opened?.ok ? opened.value : null;
  });

  readonly ways = $derived(waysToGive(this.#grid));

  /** The grid as it would be, with how it was fitted; or what is wanting, in a sentence. */
  readonly laid: Result<Laid, string> = $derived.by(() => {
    const { on } = this;
    if (!on || !this.#grid) return fail('Choose the grid it lies on first.');
    const placing = this.#placing(this.#grid);
    if (!placing.ok) return placing;
    const local: LocalGrid = { on, placing: placing.value };
    const placed = placedOn(local, this.unit);
    if (!placed.ok) return fail(placingSentence(placed.problem));
    const name = this.name.trim() || 'Local grid';
    return ok({
      grid: { name, code: null, projection: null, unit: this.unit, local },
      placed: placed.value,
    });
  });

  /** How it lies, in sentences. */
  readonly words: readonly string[] = $derived.by(() => {
    if (!this.laid.ok || !this.on) return [];
    const { grid, placed } = this.laid.value;
    const opened = openDefined(grid);
    const at = placed.tie.local;
    const [east, north] = [inUnits(at.east, this.unit), inUnits(at.north, this.unit)];
    const facts = opened.ok ? opened.value.factsAt(east, north, metres(0)) : null;
    return placedWords(placed, this.on, facts?.convergence ?? null);
  });

  /** Known less fitted at each mark typed, in the unit of the other grid, for its row; null where nothing is fitted yet. */
  readonly residuals: readonly ({ east: string; north: string; distance: string } | null)[] =
    $derived.by(() => {
      const unit = this.on?.unit ?? 'm';
      const left = this.laid.ok ? [...(this.laid.value.placed.fit?.residuals ?? [])] : [];
      return this.marks.map((mark) => {
        const own = isBlank(mark) ? null : left.shift();
        return own
          ? {
              east: residualNumber(own.east, unit),
              north: residualNumber(own.north, unit),
              distance: residualNumber(own.distance, unit),
            }
          : null;
      });
    });

  #placing(on: Grid): Result<LocalPlacing, string> {
    const read: { name: string; local: EastNorth; grid: EastNorth }[] = [];
    const typed = this.by === 'origin' ? this.marks.slice(0, 1) : this.marks.filter((m) => !isBlank(m)); // prettier-ignore
    for (const { name, local, known } of typed) {
      const who = this.by === 'origin' ? 'The origin' : name.trim() || 'A point without a name';
      const [east, north] = local.map((text) => decimal(text.trim()));
      if (typeof east !== 'number' || typeof north !== 'number')
        return fail(`${who}: its two coordinates on the local grid are numbers.`);
      const place = knownPlace(on, this.given, known);
      if (!place.ok) return fail(`${who}: ${place.problem}.`);
      read.push({ name: name.trim(), local: [east, north], grid: place.value });
    }
    if (this.by === 'control')
      return ok({ by: 'control', marks: read, scale: this.isScaleHeld ? 'held' : 'free' });
    const [origin] = read;
    const [rotation, scale] = [decimal(this.rotation.trim()), decimal(this.scale.trim())];
    if (rotation === null) return fail('The rotation is a number of degrees.');
    if (scale === null) return fail('The scale is a number; 1 where both are in the same distances.'); // prettier-ignore
    return origin
      ? ok({ by: 'origin', local: origin.local, grid: origin.grid, rotation, scale })
      : fail('Give the origin on both grids.');
  }

  write(at: number, field: MarkField, text: string) {
    this.marks = this.marks.map((mark, i) => {
      if (i !== at) return mark;
      switch (field) {
        case 'name':
          return { ...mark, name: text };
        case 'local east':
          return { ...mark, local: [text, mark.local[1]] };
        case 'local north':
          return { ...mark, local: [mark.local[0], text] };
        case 'known east':
          return { ...mark, known: [text, mark.known[1]] };
        case 'known north':
          return { ...mark, known: [mark.known[0], text] };
      }
    });
  }

  add = () => (this.marks = [...this.marks, blank(this.marks.length + 1)]);

  remove = (at: number) => (this.marks = this.marks.filter((_, i) => i !== at));
}

/** Coordinates for a field, to a tenth of a millimetre. */
const texts = ([east, north]: EastNorth): readonly [string, string] => [
  String(Number(east.toFixed(4))),
  String(Number(north.toFixed(4))),
];
