import type { Side } from '../../analysis/index.js';
import { isoDay } from '../../plain/days.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import { daySorter, type TrayRecord, type TrayWater, type Trial } from '../../trial/index.js';
import { type RestOfTrays, restOfTrays } from './rest-of-trays.js';
import { type SpecimenDrying, specimensDrying } from './specimens-drying.js';

/** What trays tell of a laboratory trial beyond the answer. */
export interface LaboratoryFacts {
  /** Treated arms first. */
  readonly arms: readonly TraysOfArm[];
  /** Absent where the outcome is not read from trays. */
  readonly rest?: RestOfTrays;
  readonly drying: readonly SpecimenDrying[];
}

export interface TraysOfArm {
  readonly arm: string;
  readonly side: Side;
  readonly walls: number;
  readonly waters: readonly TrayWater[];
  /** Of the level in both windows, least and most; absent where none is on record. */
  readonly level_mm?: { readonly least: number; readonly most: number };
  /** Refilled and weighed, means over all rows of the window; absent where none is on record. */
  readonly before: TrayMeans;
  readonly after: TrayMeans;
}

interface TrayMeans {
  readonly refill_ml?: number;
  readonly mass_kg?: number;
  /** Water taken up in a day by one square metre of one face; absent where a wall of the arm has no area, or trays are not refilled. */
  readonly uptake_kg_m2_d?: number;
}

/** Of water at 20 °C (from memory). */
const kilogramsPerMillilitre = 0.998_2e-3;

/** Absent where no wall of the comparison stood in a tray. */
export function laboratoryOfTrial(trial: Trial, sides: ReadonlyMap<string, Side>): LaboratoryFacts | undefined {
  const trays = (trial.trays ?? []).filter(({ wall }) => sides.has(wall));
  if (trays.length === 0) return undefined;
  const rest = restOfTrays(trial, sides);
  return {
    arms: armsOf(trial, trays, sides),
    ...present({ rest }),
    drying: specimensDrying(trial),
  };
}

function armsOf(trial: Trial, trays: readonly TrayRecord[], sides: ReadonlyMap<string, Side>): readonly TraysOfArm[] {
  const sorted = daySorter(trial);
  const armOf = new Map(trial.walls.map(({ wall, arm }) => [wall, arm]));
  const arms = trial.protocol.arms.flatMap(({ arm }): TraysOfArm[] => {
    const own = trays.filter(({ wall }) => armOf.get(wall) === arm);
    const side = sides.get(own[0]?.wall ?? '');
    if (side === undefined) return [];
    const rows = (window: 'before' | 'after') => own.filter(({ wall, date }) => sorted(wall, isoDay(date)) === window);
    const [before, after] = [rows('before'), rows('after')];
    const levels = [...before, ...after].flatMap(({ level_mm = [] }) => level_mm);
    return [
      {
        ...{ arm, side, walls: new Set(own.map(({ wall }) => wall)).size },
        waters: [...new Set([...before, ...after].flatMap(({ water = [] }) => water))].sort(),
        ...(levels.length === 0 ? {} : { level_mm: { least: Math.min(...levels), most: Math.max(...levels) } }),
        before: { ...meansOf(before), ...uptakeOf(trial, arm, (wall, day) => sorted(wall, day) === 'before') },
        after: { ...meansOf(after), ...uptakeOf(trial, arm, (wall, day) => sorted(wall, day) === 'after') },
      },
    ];
  });
  return arms.toSorted((one, other) => Number(other.side === 'treated') - Number(one.side === 'treated'));
}

function meansOf(rows: readonly TrayRecord[]): TrayMeans {
  const refills = rows.flatMap(({ refill_ml = [] }) => refill_ml);
  const masses = rows.flatMap(({ mass_kg = [] }) => mass_kg);
  return {
    ...(refills.length === 0 ? {} : { refill_ml: mean(refills) }),
    ...(masses.length === 0 ? {} : { mass_kg: mean(masses) }),
  };
}

/** Mean over walls of each wall's mean refill a day over the area of its face. */
function uptakeOf(
  { walls, readings, protocol }: Trial,
  arm: string,
  isIn: (wall: string, day: string) => boolean,
): Pick<TrayMeans, 'uptake_kg_m2_d'> {
  const refilled = protocol.instruments.find(({ fromTrays }) => fromTrays === 'refill')?.instrument;
  const own = walls.flatMap(({ wall, arm: of, area_m2 }) => {
    const values = readings.flatMap(({ instrument, wall: read, date, value }) =>
      of === arm && read === wall && instrument === refilled && value.kind === 'measured' && isIn(wall, isoDay(date))
        ? [value.value]
        : [],
    );
    return values.length === 0 ? [] : [{ ml_d: mean(values), area_m2 }];
  });
  const rates = own.flatMap(({ ml_d, area_m2 }) =>
    area_m2 === undefined ? [] : [(kilogramsPerMillilitre * ml_d) / area_m2],
  );
  return own.length === 0 || rates.length < own.length ? {} : { uptake_kg_m2_d: mean(rates) };
}
