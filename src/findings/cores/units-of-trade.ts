import { type Side, stationChanges, type WallChange, wallChanges } from '../../analysis/index.js';
import {
  type DryBasisMoisture,
  type MoistureReading,
  moistureReadings,
  toDegreeOfSaturation,
  toVolumeBasis,
} from '../../moisture/index.js';
import { type Trial, unitsPerPercentByMass, type Wall } from '../../trial/index.js';
import { type MeanOfWalls, meanOfWalls } from './mean-of-walls.js';

/** Means over walls before, after and of the change. */
export interface BeforeAfter {
  readonly before: MeanOfWalls;
  readonly after: MeanOfWalls;
  readonly change: MeanOfWalls;
}

/** The moisture of one arm’s cores in the units of the trade; each part is of the walls that state what it needs. */
export interface UnitsOfArm {
  readonly arm: string;
  readonly side: Side;
  /** Through the wall’s dry density. */
  readonly volume_pct?: BeforeAfter;
  readonly water_kg_m3?: BeforeAfter;
  /** Degree of saturation, through the moisture content at saturation that the folder states. */
  readonly saturation_pct?: BeforeAfter;
  /** Cores that hold more than saturation by more than their weighing can explain, and the walls that they come from. */
  readonly aboveSaturation?: { readonly cores: number; readonly of: number; readonly walls: readonly string[] };
}

/** Standard uncertainties of the weighing, beyond which a core counts as wetter than saturated: our convention, some 95 %. */
const clearly = 2;

/**
 * What the cores hold in percent by volume and kilograms of water a cubic metre, through the dry density that `walls.csv` states, and in percent of
 * saturation, through its `saturated_pct`: by arm, with walls as the units. Density and saturation count as exact.
 *
 * @example unitsOfTrade(await readTrial('datasets/damp-cellar-walls'), 0.95)[0].water_kg_m3.before.walls // 8
 * @source conversions: `toVolumeBasis`, `toDegreeOfSaturation`
 */
export function unitsOfTrade(trial: Trial, level: number): readonly UnitsOfArm[] {
  const balance = trial.protocol.instruments.find(({ kind }) => kind === 'gravimetric')?.instrument;
  const isStated = trial.walls.some((wall) => wall.dryDensity_kg_m3 !== undefined || wall.saturated_pct !== undefined);
  if (balance === undefined || !isStated) return [];
  const scale = balance === trial.protocol.outcome.instrument ? unitsPerPercentByMass(trial.protocol.outcome.unit) : 1;
  if (scale === undefined) return [];
  const own = moistureReadings(trial).filter(({ instrument }) => instrument === balance);
  const changes = changesByCores(trial, own, balance);
  const walls = new Map(trial.walls.map((wall) => [wall.wall, wall]));
  return [...new Set(changes.map(({ arm }) => arm))].flatMap((arm): UnitsOfArm[] => {
    const ofArm = changes.filter((each) => each.arm === arm);
    const [first] = ofArm;
    if (first === undefined) return [];
    const inUnit = (convert: (moisture: DryBasisMoisture, wall: Wall) => number | undefined) =>
      meansIn(ofArm, (value, wall) => convert(asMoisture(value / scale), wall), { walls, level });
    const parts = {
      volume_pct: inUnit(byVolume),
      water_kg_m3: inUnit(({ value }, { dryDensity_kg_m3 }) =>
        dryDensity_kg_m3 === undefined ? undefined : (value / 100) * dryDensity_kg_m3,
      ),
      saturation_pct: inUnit(ofSaturation),
      aboveSaturation: aboveSaturation(own, { arm, scale, walls }),
    };
    const stated = Object.fromEntries(Object.entries(parts).filter(([, part]) => part !== undefined));
    return Object.keys(stated).length === 0 ? [] : [{ arm, side: first.side, ...stated }];
  });
}

/** The primary analysis’ own means of walls, by the cores, of walls read before and after. */
function changesByCores(trial: Trial, readings: readonly MoistureReading[], instrument: string): readonly WallChange[] {
  const { protocol } = trial;
  const asOutcome = { ...trial, protocol: { ...protocol, outcome: { ...protocol.outcome, instrument } } };
  const { walls } = wallChanges(asOutcome, stationChanges(asOutcome, readings).stations);
  return walls.filter(({ before }) => before !== undefined);
}

function asMoisture(value: number): DryBasisMoisture {
  return { basis: 'dry', unit: '% by mass', value };
}

function byVolume(moisture: DryBasisMoisture, { dryDensity_kg_m3 }: Wall): number | undefined {
  return dryDensity_kg_m3 === undefined ? undefined : toVolumeBasis(moisture, { dryDensity_kg_m3 }).value;
}

function ofSaturation(moisture: DryBasisMoisture, { saturated_pct }: Wall): number | undefined {
  if (saturated_pct === undefined) return undefined;
  return toDegreeOfSaturation(moisture, { kind: 'stated', saturated_pct }).value;
}

function meansIn(
  changes: readonly WallChange[],
  convert: (value: number, wall: Wall) => number | undefined,
  { walls, level }: { readonly walls: ReadonlyMap<string, Wall>; readonly level: number },
): BeforeAfter | undefined {
  const both = changes.flatMap(({ wall: name, before, after }) => {
    const wall = walls.get(name);
    if (wall === undefined || before === undefined) return [];
    const [first, last] = [convert(before, wall), convert(after, wall)];
    return first === undefined || last === undefined ? [] : [{ before: first, after: last }];
  });
  const of = (values: readonly number[]) => meanOfWalls(values, level);
  const before = of(both.map((each) => each.before));
  const after = of(both.map((each) => each.after));
  const change = of(both.map((each) => each.after - each.before));
  return before === undefined || after === undefined || change === undefined ? undefined : { before, after, change };
}

interface CoresOfArm {
  readonly arm: string;
  readonly scale: number;
  readonly walls: ReadonlyMap<string, Wall>;
}

function aboveSaturation(
  readings: readonly MoistureReading[],
  { arm, scale, walls }: CoresOfArm,
): UnitsOfArm['aboveSaturation'] {
  const held = readings.flatMap(({ wall: name, value, standardUncertainty = 0 }) => {
    const wall = walls.get(name);
    if (wall?.arm !== arm || wall.saturated_pct === undefined || value.kind !== 'measured') return [];
    const least_pct = (value.value - clearly * standardUncertainty) / scale;
    return [{ wall: name, isAbove: least_pct > wall.saturated_pct }];
  });
  const above = held.filter(({ isAbove }) => isAbove);
  if (held.length === 0) return undefined;
  return { cores: above.length, of: held.length, walls: [...new Set(above.map(({ wall }) => wall))] };
}
