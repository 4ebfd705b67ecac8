/**
 * Mistakes planted into sites that have none, to see which of them the findings
 * name. The seeds and kinds were fixed before the rules were written.
 */
import type { DataPackage } from '../../src/domain/site/data-package';
import type { TableName } from '../../src/domain/site/schema';
import type { Site } from '../../src/domain/site/site';
import { cellText, withCell } from '../../src/domain/site/table';
import { inUnits, metres, type LengthUnit, type Metres } from '../../src/domain/units';
import { headsOf, type GaugedScreen } from '../../src/domain/water/event-heads';
import { flowOf, type Flow } from '../../src/domain/water/flow';
import { randomFrom, type Random } from '../../src/domain/water/random';

export const KINDS = [
  'a foot in a measuring point',
  'ten feet in a measuring point',
  'swapped wells',
  'feet for metres',
  'wrong zone',
  'dry well kept',
  'a level 9 days late',
  'a digit swapped',
  'product uncorrected',
] as const;
export type Kind = (typeof KINDS)[number];

/** A number that tells this set of mistakes from others; not to be changed with the rules. */
export const SEED = 20260514;

export type PlantedSite = {
  readonly name: string;
  readonly package: DataPackage;
  readonly site: Site;
  /** What the calculations use once the package has been changed. */
  readonly read: (changed: DataPackage) => Site;
};

export type Planted = {
  readonly kind: Kind;
  readonly site: PlantedSite;
  readonly event: string;
  readonly zone: string | null;
  /** Locations the mistake was made at. */
  readonly wells: readonly string[];
  /** What was done, for the table of what was missed. */
  readonly says: string;
  /** Largest change of a head it makes; null where no head is changed or it has none any more. */
  readonly shift: Metres | null;
  /** Of the plane before the mistake: its residual scatter, or the stated error with three wells. */
  readonly scatter: Metres;
  /** Of the well with the largest shift in that plane. */
  readonly leverage: number;
  /** Wells in that plane. */
  readonly count: number;
  readonly changed: DataPackage;
  readonly cells: readonly Cell[];
};

type Cell = { table: TableName; row: number; column: string; text: string };

const write = (given: DataPackage, cells: readonly Cell[]): DataPackage =>
  cells.reduce((so, { table, row, column, text }) => {
    const before = so.tables[table];
    if (!before) throw new Error(`no table ${table}`);
    return { ...so, tables: { ...so.tables, [table]: withCell(before, row - 2, column, text) } };
  }, given);

const decimals = (text: string) => /\.(\d+)/.exec(text)?.[1]?.length ?? 0;

type Places = {
  readonly from: PlantedSite;
  readonly event: string;
  readonly unit: LengthUnit;
  readonly counted: readonly GaugedScreen[];
  readonly random: Random;
};

type Mistake = {
  readonly wells: readonly GaugedScreen[];
  readonly cells: readonly Cell[];
  readonly says: string;
};

const pick = <T>(from: readonly T[], random: Random): T | undefined =>
  from[Math.floor(random() * from.length)];

const markText = (well: GaugedScreen) => well.measuringPoint?.elevation?.text ?? null;

/** A number of the table's own unit added to a cell, at the decimals it has. */
const added = (text: string, by: number, least = 0) =>
  (Number(text) + by).toFixed(Math.max(decimals(text), least));

function markOff({ counted, random, unit }: Places, feet: number): Mistake | null {
  const well = pick(
    counted.filter((one) => markText(one) !== null),
    random,
  );
  const text = well && markText(well);
  if (!well?.measuringPoint || !text) return null;
  const by = (random() < 0.5 ? -1 : 1) * inUnits(metres(feet, 'ft'), unit);
  const wrong = added(text, by);
  return {
    wells: [well],
    cells: [
      { table: 'measuring_points', row: well.measuringPoint.row, column: 'elevation', text: wrong },
    ],
    says: `mark of ${well.screen.id} ${text} → ${wrong}`,
  };
}

const depthCell = (well: GaugedScreen, text: string): Cell => ({
  table: 'water_levels',
  row: well.reading.row,
  column: 'depth_to_water',
  text,
});

const depthText = (well: GaugedScreen) => well.reading.depth_to_water?.text ?? '';

function swapped({ counted, random }: Places): Mistake | null {
  const one = pick(counted, random);
  const other = pick(
    counted.filter(
      (two) => two.screen.zone === one?.screen.zone && depthText(two) !== depthText(one),
    ),
    random,
  );
  if (!one || !other) return null;
  return {
    wells: [one, other],
    cells: [depthCell(one, depthText(other)), depthCell(other, depthText(one))],
    says: `depths of ${one.screen.id} (${depthText(one)}) and ${other.screen.id} (${depthText(other)}) exchanged`,
  };
}

function otherUnit({ counted, random, unit }: Places): Mistake | null {
  const well = pick(counted, random);
  if (!well) return null;
  const text = depthText(well);
  const wrong = (Number(text) * (unit === 'm' ? 1 / 0.3048 : 0.3048)).toFixed(decimals(text));
  return {
    wells: [well],
    cells: [depthCell(well, wrong)],
    says: `depth of ${well.screen.id} ${text} → ${wrong}`,
  };
}

function wrongZone({ counted, random }: Places): Mistake | null {
  const zones = [...new Set(counted.map(({ screen }) => screen.zone))];
  const well = pick(counted, random);
  const zone = pick(
    zones.filter((name) => name !== well?.screen.zone),
    random,
  );
  if (!well || !zone) return null;
  return {
    wells: [well],
    cells: [{ table: 'screens', row: well.screen.row, column: 'zone', text: zone }],
    says: `${well.screen.id} named ${zone}`,
  };
}

/** The tape stops at the bottom of the sump and the wet end is read as water. */
function dryKept({ counted, random, unit }: Places): Mistake | null {
  const known = counted.filter(
    ({ screen, location, measuringPoint }) =>
      screen.tip_depth && location.ground_elevation && measuringPoint?.elevation,
  );
  const well = pick(known, random);
  const tip = well?.screen.tip_depth?.value;
  const ground = well?.location.ground_elevation?.value;
  const mark = well?.measuringPoint?.elevation?.value;
  if (!well || tip === undefined || ground === undefined || mark === undefined) return null;
  const bottom = inUnits(metres(mark - ground + tip), unit);
  const wrong = (bottom - random() * inUnits(metres(0.1, 'ft'), unit)).toFixed(2);
  return {
    wells: [well],
    cells: [depthCell(well, wrong)],
    says: `depth of ${well.screen.id} ${depthText(well)} → ${wrong}, the bottom`,
  };
}

function late({ counted, random, unit }: Places): Mistake | null {
  const well = pick(
    counted.filter(({ reading }) => reading.time !== null),
    random,
  );
  const time = well?.reading.time;
  if (!well || !time) return null;
  const moved = new Date(Date.parse(`${time.slice(0, 10)}T00:00Z`) + 9 * 86_400_000);
  const then = `${moved.toISOString().slice(0, 10)}${time.slice(10)}`;
  const drift = (random() < 0.5 ? -1 : 1) * inUnits(metres(0.05 + 0.45 * random(), 'ft'), unit);
  const wrong = added(depthText(well), drift, 2);
  return {
    wells: [well],
    cells: [
      { table: 'water_levels', row: well.reading.row, column: 'time', text: then },
      depthCell(well, wrong),
    ],
    says: `${well.screen.id} gauged ${then} instead of ${time}, ${depthText(well)} → ${wrong}`,
  };
}

/** Two digits beside each other exchanged, in a depth or in a mark's elevation. */
function digits({ counted, random }: Places): Mistake | null {
  const well = pick(counted, random);
  if (!well) return null;
  const inMark = random() < 0.5 && markText(well) !== null;
  const text = inMark ? (markText(well) ?? '') : depthText(well);
  const at = [...text].flatMap((digit, i) => (/\d/.test(digit) ? [i] : []));
  const pairs = at.slice(1).flatMap((to, k) => {
    const from = at[k] ?? 0;
    return text[from] === text[to] ? [] : [[from, to] as const];
  });
  const pair = pick(pairs, random);
  if (!pair) return null;
  const letters = [...text];
  [letters[pair[0]], letters[pair[1]]] = [letters[pair[1]] ?? '', letters[pair[0]] ?? ''];
  const wrong = letters.join('');
  const mark = well.measuringPoint;
  return {
    wells: [well],
    cells: [
      inMark && mark
        ? { table: 'measuring_points', row: mark.row, column: 'elevation', text: wrong }
        : depthCell(well, wrong),
    ],
    says: `${inMark ? 'mark' : 'depth'} of ${well.screen.id} ${text} → ${wrong}`,
  };
}

/** The product read in a well left out of its row; in a well without any, a layer nobody looked for. */
function product({ counted, random, unit }: Places): Mistake | null {
  const under = counted.filter(({ reading }) => reading.depth_to_product !== null);
  const well = under.length > 0 && random() < 0.5 ? pick(under, random) : pick(counted, random);
  if (!well) return null;
  if (well.reading.depth_to_product) {
    const blank = (column: string): Cell => ({ ...depthCell(well, ''), column });
    return {
      wells: [well],
      cells: [blank('depth_to_product'), blank('product_density')],
      says: `product in ${well.screen.id} left out of its row`,
    };
  }
  const layer = inUnits(metres(0.3 + 1.2 * random(), 'ft'), unit);
  const wrong = added(depthText(well), layer * 0.83, 2);
  return {
    wells: [well],
    cells: [depthCell(well, wrong)],
    says: `${layer.toFixed(2)} ${unit} of product in ${well.screen.id} not looked for, ${depthText(well)} → ${wrong}`,
  };
}

const MISTAKES: Readonly<Record<Kind, (places: Places) => Mistake | null>> = {
  'a foot in a measuring point': (places) => markOff(places, 1),
  'ten feet in a measuring point': (places) => markOff(places, 10),
  'swapped wells': swapped,
  'feet for metres': otherUnit,
  'wrong zone': wrongZone,
  'dry well kept': dryKept,
  'a level 9 days late': late,
  'a digit swapped': digits,
  'product uncorrected': product,
};

/**
 * So many mistakes, one at a time, the kinds in turn, each in a site and event
 * drawn by the seed. A kind that makes no sense where it was drawn is drawn
 * again; one that never does in these sites is left to the next in turn.
 */
export function plant(sites: readonly PlantedSite[], count: number, seed = SEED): Planted[] {
  const random = randomFrom(seed);
  const planted: Planted[] = [];
  for (let turn = 0; planted.length < count; turn++) {
    const kind = KINDS[turn % KINDS.length] ?? 'swapped wells';
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      const made = plantOne(kind, sites, random);
      if (!made) continue;
      planted.push(made);
      break;
    }
  }
  return planted;
}

const MOST_TRIES = 40;

function plantOne(kind: Kind, sites: readonly PlantedSite[], random: Random): Planted | null {
  const from = pick(sites, random);
  const gauged = from && [...new Set(from.site.waterLevels.map(({ event }) => event))];
  const event = gauged && pick(gauged, random);
  if (!from || event === undefined) return null;
  const unit = from.package.settings.verticalUnit;
  const counted = headsOf(from.site, event).filter(({ leftOut }) => leftOut === null);
  const mistake = MISTAKES[kind]({ from, event, unit, counted, random });
  if (!mistake) return null;
  if (mistake.cells.every((cell) => isAsItWas(from, cell))) return null;
  const changed = write(from.package, mistake.cells);
  return measured(kind, from, event, mistake, changed);
}

function isAsItWas(from: PlantedSite, { table, row, column, text }: Cell) {
  const given = from.package.tables[table];
  return given !== undefined && cellText(given, row - 2, column) === text;
}

function measured(
  kind: Kind,
  from: PlantedSite,
  event: string,
  { wells, says, cells }: Mistake,
  changed: DataPackage,
): Planted | null {
  const site = from.read(changed);
  const after = new Map(headsOf(site, event).map((one) => [one.reading.row, one]));
  const shifts = wells.map((well) => {
    const now = after.get(well.reading.row);
    if (!now?.head || !well.head) return null;
    return kind === 'wrong zone'
      ? misfit(flowOf(site, event, now.screen.zone), now.screen.id)
      : Math.abs(now.head.value - well.head.value);
  });
  const worst = shifts.indexOf(
    shifts.reduce((top, s) => (s !== null && (top === null || s > top) ? s : top), null),
  );
  const well = wells[Math.max(0, worst)];
  if (!well) return null;
  const before = flowOf(from.site, event, well.screen.zone);
  const at = before.fitted.findIndex(({ gauged }) => gauged.screen.id === well.screen.id);
  const shift = shifts[worst] ?? null;
  return {
    kind,
    site: from,
    event,
    zone: well.screen.zone,
    wells: [...new Set(wells.map(({ location }) => location.id))],
    says,
    shift: shift === null ? null : metres(shift),
    scatter: before.plane?.s ?? well.sigma,
    leverage: before.plane?.leverage[at] ?? 1,
    count: before.fitted.length,
    changed,
    cells,
  };
}

/** In a wrong zone the head is right: what is wrong is how far it lies off the plane of the others there. */
function misfit({ fitted, plane }: Flow, screen: string): number | null {
  const at = fitted.findIndex(({ gauged }) => gauged.screen.id === screen);
  const residual = fitted[at]?.residual;
  const leverage = plane?.leverage[at];
  if (residual === undefined || leverage === undefined || leverage > 1 - 1e-9) return null;
  return Math.abs(residual) / (1 - leverage);
}
