import { holdsOn } from '../../domain/layout/cleared';
import { clearancesAt } from '../../domain/layout/clearance';
import { plannedPoints, type PlannedPoint } from '../../domain/layout/field-plan';
import { groundPlanOf } from '../../domain/layout/ground-plan';
import { readPattern } from '../../domain/layout/numbering';
import { patternProblemWords } from '../../domain/layout/layout-words';
import {
  notClearedOn,
  pushSheet,
  SAMPLE_WORDS,
  type Equipment,
  type PushRow,
} from '../../domain/layout/push-sheet';
import { pushedInAll, rodsOnRig } from '../../domain/layout/rods';
import { sampleCounts } from '../../domain/layout/sample-counts';
import { pushTable, stakeTable, tableText } from '../../domain/layout/sheet-tables';
import { metres } from '../../domain/units';
import { tableOf } from '../../domain/site/table';
import { writeCsv } from '../../io/csv';
import type { OpenSite } from '../open-site.svelte';
import { stakesGpx } from './stakes-gpx';

/** A file to be saved. */
export type SheetFile = { readonly name: string; readonly type: string; readonly text: string };

const INCHES_PER_FOOT = 12;

/** What the crew takes along, and the sheets made of it. Typed in the site's vertical unit; bores in inches or mm. */
export class FieldSheets {
  #site: OpenSite;
  rodLength = $state(4);
  toolLength = $state(4);
  leastAbove = $state(1);
  tubingAbove = $state(5);
  tubing = $state(0.25);
  screen = $state(0.5);
  hole = $state(1.5);
  sealingExtra = $state(20);
  purgeTimes = $state(3);
  samples = $state('[location]-[top]-[day]');
  containers = $state('3 × 40 mL vial, HCl');
  /** Blank or 0: none. */
  duplicateEach: number | null = $state(10);
  spikeEach: number | null = $state(20);
  coolers = $state(1);
  days = $state(1);
  day = $state(today());
  order: 'as named' | 'north to south' = $state('as named');
  paper: 'letter' | 'A4' = $state('letter');
  /** Which sheet is open for print. */
  printing: 'push' | 'stakes' | null = $state(null);

  constructor(site: OpenSite) {
    this.#site = site;
    if (site.site.settings.verticalUnit === 'm') {
      [this.rodLength, this.toolLength, this.leastAbove, this.tubingAbove] = [1.2, 1.2, 0.3, 1.5];
      [this.tubing, this.screen, this.hole] = [6, 12, 38];
    }
  }

  get unit() {
    return this.#site.site.settings.verticalUnit;
  }

  get boreUnit() {
    return this.unit === 'm' ? 'mm' : 'in';
  }

  #length = (n: number) => metres(n, this.unit);
  #bore = (n: number) => (this.unit === 'm' ? metres(n / 1000) : metres(n / INCHES_PER_FOOT, 'ft'));

  readonly equipment: Equipment = $derived.by(() => ({
    rodLength: this.#length(this.rodLength),
    toolLength: this.#length(this.toolLength),
    leastAbove: this.#length(this.leastAbove),
    tubingAbove: this.#length(this.tubingAbove),
    tubing: this.#bore(this.tubing),
    screen: this.#bore(this.screen),
    hole: this.#bore(this.hole),
    sealingExtra: this.sealingExtra / 100,
    purgeTimes: this.purgeTimes,
    samples: this.samples,
    containers: this.containers,
    duplicateEach: this.duplicateEach,
    day: this.day,
  }));
  readonly patternProblem = $derived.by(() => {
    const read = readPattern(this.samples, SAMPLE_WORDS);
    return read.ok ? null : patternProblemWords(read.problem);
  });

  readonly points: readonly PlannedPoint[] = $derived.by(() => {
    const points = plannedPoints(this.#site.site, this.#site.flow);
    return this.order === 'as named'
      ? points.toSorted((a, b) => byName.compare(a.location.id, b.location.id))
      : points.toSorted((a, b) => b.at[1] - a.at[1] || a.at[0] - b.at[0]);
  });
  readonly rows = $derived.by(() => pushSheet(this.#site.site, this.points, this.equipment));
  readonly pushed = $derived.by(() => pushedInAll(this.rows.map(({ tip }) => tip)));
  readonly rods = $derived.by(() =>
    rodsOnRig(this.rows.flatMap(({ rods }) => (rods ? [rods] : []))),
  );
  readonly counts = $derived.by(() =>
    sampleCounts(
      this.rows.filter(({ sample }) => sample !== null).length,
      this.coolers,
      this.days,
      {
        name: 'as typed',
        fieldDuplicate: this.duplicateEach,
        matrixSpike: this.spikeEach,
        tripBlank: true,
        equipmentBlank: true,
        source: 'as typed',
      },
    ),
  );
  readonly notCleared = $derived.by(() => notClearedOn(this.rows, this.day));

  readonly isCleared = ({ cleared }: PushRow) => holdsOn(cleared, this.day);

  readonly plan = $derived.by(
    () => groundPlanOf(this.#site.site.features, this.#site.site.settings.grid.unit).plan,
  );
  /** What is drawn near each point, the nearest first. */
  readonly clearances = $derived.by(() =>
    this.points.map((point) => ({ point, near: clearancesAt(point.at, this.plan).slice(0, 3) })),
  );

  readonly lngLat = ([east, north]: readonly [number, number]) =>
    this.#site.grid.toLngLat(east, north);

  readonly #units = $derived.by(() => {
    const { verticalUnit: vertical, grid, volumeUnit: volume } = this.#site.site.settings;
    return { vertical, grid: grid.unit, volume };
  });
  readonly pushTable = $derived.by(() => pushTable(this.rows, this.equipment, this.#units));
  readonly stakeTable = $derived.by(() =>
    stakeTable(this.clearances, this.#site.site, this.day, this.#units, this.lngLat),
  );

  csv(which: 'push' | 'stakes'): SheetFile {
    const { columns, rows } = tableText(which === 'push' ? this.pushTable : this.stakeTable);
    const name = which === 'push' ? 'push-sheet' : 'stake-out';
    return {
      name: `${name}-${this.day}.csv`,
      type: 'text/csv',
      text: writeCsv(tableOf(columns, rows)),
    };
  }

  /** Stakes as waypoints on WGS 84; null where the grid is tied to nothing. */
  gpx(): SheetFile | null {
    const text = stakesGpx(this.#site.site.settings, this.#site.grid, this.points);
    if (text === null) return null;
    return { name: `stakes-${this.day}.gpx`, type: 'application/gpx+xml', text };
  }
}

const byName = new Intl.Collator('en', { numeric: true });

/** The day here, as 2026-05-31. */
function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}
