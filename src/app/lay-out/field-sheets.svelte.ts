import { drawnOf } from '../../domain/lab/drawn-results';
import { holdsOn } from '../../domain/layout/cleared';
import { cleanToDirty, expectedAt } from '../../domain/layout/clean-to-dirty';
import { clearancesAt } from '../../domain/layout/clearance';
import { containerLines, usualKit, type CrewKit } from '../../domain/layout/crew-kit';
import { plannedPoints, type PlannedPoint } from '../../domain/layout/field-plan';
import { expectedWaterWords } from '../../domain/layout/expected-water';
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
import { qualitySamples } from '../../domain/layout/quality-samples';
import { pushedInAll, rodsOnRig } from '../../domain/layout/rods';
import { containerTotals, sampleCounts } from '../../domain/layout/sample-counts';
import {
  groundSaidOnce,
  pushTable,
  stakeTable,
  tableText,
  withColumns,
} from '../../domain/layout/sheet-tables';
import { metres } from '../../domain/units';
import { tableOf } from '../../domain/site/table';
import { writeCsv } from '../../io/csv';
import type { OpenSite } from '../open-site.svelte';
import { stakesGpx } from './stakes-gpx';

/** In which order the points stand on the sheets. */
export const SHEET_ORDERS = ['as named', 'north to south', 'clean to dirty'] as const;
export type SheetOrder = (typeof SHEET_ORDERS)[number];

/** A file to be saved. */
export type SheetFile = { readonly name: string; readonly type: string; readonly text: string };

const INCHES_PER_FOOT = 12;

/** What the crew takes along, and the sheets made of it. Typed in the site's vertical unit; bores in inches or mm. */
export class FieldSheets {
  #site: OpenSite;
  day = $state(today());
  order: SheetOrder = $state('as named');
  paper: 'letter' | 'A4' = $state('letter');
  /** Which sheet is open for print. */
  printing: 'push' | 'stakes' | null = $state(null);

  constructor(site: OpenSite) {
    this.#site = site;
  }

  /** What the crew brings, as kept with the site. */
  readonly kit: CrewKit = $derived.by(() => this.#site.site.settings.kit ?? usualKit(this.unit));

  /** Something of it changed, for the whole site; one step to undo. */
  bring(change: Partial<CrewKit>, label: string) {
    const kit = { ...this.kit, ...change };
    return this.#site.edit(label, { kind: 'change-settings', settings: { kit } });
  }

  get unit() {
    return this.#site.site.settings.verticalUnit;
  }

  get boreUnit() {
    return this.unit === 'm' ? 'mm' : 'in';
  }

  #length = (n: number) => metres(n, this.unit);
  #bore = (n: number) => (this.unit === 'm' ? metres(n / 1000) : metres(n / INCHES_PER_FOOT, 'ft'));

  readonly equipment: Equipment = $derived.by(() => {
    const { kit } = this;
    return {
      rodLength: this.#length(kit.rodLength),
      toolLength: this.#length(kit.toolLength),
      leastAbove: this.#length(kit.leastAbove),
      tubingAbove: this.#length(kit.tubingAbove),
      tubing: this.#bore(kit.tubing),
      screen: this.#bore(kit.screen),
      hole: this.#bore(kit.hole),
      sealingExtra: kit.sealingExtra / 100,
      purgeTimes: kit.purgeTimes,
      samples: kit.samples,
      containers: kit.containers,
      duplicateEach: kit.duplicateEach > 0 ? kit.duplicateEach : null,
      spikeEach: kit.spikeEach > 0 ? kit.spikeEach : null,
      day: this.day,
    };
  });
  readonly patternProblem = $derived.by(() => {
    const read = readPattern(this.kit.samples, SAMPLE_WORDS);
    return read.ok ? null : patternProblemWords(read.problem);
  });

  readonly points: readonly PlannedPoint[] = $derived.by(() => {
    const points = plannedPoints(this.#site.site, this.#site.flow);
    if (this.order === 'clean to dirty') return cleanToDirty(points, this.expected);
    return this.order === 'as named'
      ? points.toSorted((a, b) => byName.compare(a.location.id, b.location.id))
      : points.toSorted((a, b) => b.at[1] - a.at[1] || a.at[0] - b.at[0]);
  });
  readonly expected = $derived.by(() => {
    const { site, judged } = this.#site;
    return expectedAt(site, drawnOf(site, judged));
  });
  /** How good the water expected is, in words; blank where no water is expected at all. */
  readonly waterErrorWords = $derived.by(() => {
    const { site, flow } = this.#site;
    const { expectedWater } = site.settings;
    return expectedWaterWords(flow, expectedWater ?? null, this.unit);
  });
  readonly rows = $derived.by(() => pushSheet(this.#site.site, this.points, this.equipment));
  readonly pushed = $derived.by(() => pushedInAll(this.rows.map(({ tip }) => tip)));
  readonly rods = $derived.by(() =>
    rodsOnRig(this.rows.flatMap(({ rods }) => (rods ? [rods] : []))),
  );
  readonly quality = $derived.by(() => qualitySamples(this.rows, { ...this.kit, day: this.day }));
  readonly counts = $derived.by(() => {
    const { duplicateEach, spikeEach, coolers, days } = this.kit;
    const samples = this.rows.filter(({ sample }) => sample !== null).length;
    return sampleCounts(samples, coolers, days, {
      name: 'as typed',
      fieldDuplicate: duplicateEach,
      matrixSpike: spikeEach,
      tripBlank: true,
      equipmentBlank: true,
      source: 'as typed',
    });
  });
  /** Containers for all of it, by group of analytes. */
  readonly containers = $derived.by(() =>
    containerTotals(containerLines(this.kit.containers), this.counts),
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

  /** Why the ground is not known, where that is said once. */
  readonly groundOnce = $derived.by(() => groundSaidOnce(this.points));

  /** What the coordinates and elevations of a stake stand on. */
  readonly #stands = $derived.by(() => {
    const { grid, verticalDatum } = this.#site.site.settings;
    return {
      Grid: grid.code === null ? grid.name : `${grid.name}, ${grid.code}`,
      'Horizontal datum': this.#site.grid.datum.name ?? 'local grid, tied to none',
      'Vertical datum': verticalDatum,
    };
  });

  csv(which: 'push' | 'stakes'): SheetFile {
    const table = which === 'push' ? this.pushTable : withColumns(this.stakeTable, this.#stands);
    const { columns, rows } = tableText(table);
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
