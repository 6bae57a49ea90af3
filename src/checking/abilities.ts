import { fewestSeriesVisits, type Side } from '../analysis/index.js';
import type { Visit } from '../findings/visits.js';
import type { MoistureReading } from '../moisture/index.js';
import type { TrialVerdict } from '../opinion/index.js';
import { distinctBy } from '../plain/group-by.js';
import { present } from '../plain/present.js';
import type { Trial } from '../trial/index.js';
import type { CalibrationCheck } from './calibration-checks.js';
import { fewestPairs } from './calibration-checks.js';

/** What a trial can answer as planned and recorded so far. Counts alone: none of them moves with an outcome. */
export type Ability = { readonly can: Can } & (
  | {
      readonly id: 'difference';
      /** Allocated to each side of the comparison. */
      readonly walls: { readonly treated: number; readonly untreated: number };
      /** Read in both windows so far. */
      readonly complete: { readonly treated: number; readonly untreated: number };
      readonly hasWindows: boolean;
      /** With one wall on a side: visits at which all walls were read. */
      readonly commonVisits?: { readonly before: number; readonly after: number };
    }
  | { readonly id: 'chance'; readonly smallestP: number; readonly level: number }
  | { readonly id: 'worthwhile' }
  | { readonly id: 'calibration'; readonly check: CalibrationCheck }
  | { readonly id: 'damp-front'; readonly heights: number; readonly needed: number }
  | { readonly id: 'drying'; readonly visits: number; readonly needed: number }
  | { readonly id: 'salts'; readonly cores: number; readonly weighedHumid: number }
  | { readonly id: 'blinding'; readonly notes: number }
);

/** `these-walls-only`: of the walls that were read, and of no others. */
export type Can = 'yes' | 'not-yet' | 'no' | 'these-walls-only';

/** Heights that a damp front needs (`dampFront`), and visits after the treatment that a drying curve needs. */
const heightsOfFront = 5;
const visitsOfDrying = 4;

export interface AbilityGrounds {
  readonly trial: Trial;
  readonly judged: TrialVerdict;
  /** Of the outcome's instrument. */
  readonly readings: readonly MoistureReading[];
  readonly visits: readonly Visit[];
  readonly calibrations: readonly CalibrationCheck[];
}

export function abilitiesOf(grounds: AbilityGrounds): readonly Ability[] {
  const { trial, judged, calibrations } = grounds;
  const { margin, passMark, confidence } = trial.protocol;
  const { smallestPossibleP } = judged.facts;
  return [
    difference(grounds),
    ...(smallestPossibleP === undefined
      ? []
      : [
          {
            ...({ id: 'chance', smallestP: smallestPossibleP, level: 1 - confidence } as const),
            can: smallestPossibleP <= 1 - confidence ? ('yes' as const) : ('no' as const),
          },
        ]),
    { id: 'worthwhile', can: margin !== undefined || passMark?.asMargin === true ? 'yes' : 'no' },
    ...calibrations.map((check) => ({
      ...({ id: 'calibration', check } as const),
      can: check.pairs >= fewestPairs && check.walls >= fewestPairs ? ('yes' as const) : ('not-yet' as const),
    })),
    dampFront(grounds),
    drying(grounds),
    ...(trial.cores.length === 0 ? [] : [salts(trial)]),
    { id: 'blinding', notes: trial.beliefs.length, can: trial.beliefs.length > 0 ? 'yes' : 'not-yet' },
  ];
}

function difference({ trial, judged }: AbilityGrounds): Ability {
  const { sides, walls: read } = judged.facts;
  const walls = bySide([...sides.values()]);
  const complete = bySide(read.map(({ side }) => side));
  const hasWindows = trial.protocol.windows !== undefined || trial.walls.some(({ windows }) => windows !== undefined);
  const common = judged.twoWalls?.series.visits;
  const commonVisits = common && {
    before: common.filter(({ window }) => window === 'before').length,
    after: common.filter(({ window }) => window === 'after').length,
  };
  const can = (): Can => {
    if (!hasWindows || Math.min(walls.treated, walls.untreated) === 0) return 'no';
    if (Math.min(walls.treated, walls.untreated) > 1)
      return Math.min(complete.treated, complete.untreated) > 1 ? 'yes' : 'not-yet';
    const visits = commonVisits === undefined ? 0 : Math.min(commonVisits.before, commonVisits.after);
    return visits >= fewestSeriesVisits ? 'these-walls-only' : 'not-yet';
  };
  const counts = { walls, complete, hasWindows, ...present({ commonVisits }) };
  return { id: 'difference', ...counts, can: can() };
}

function bySide(sides: readonly Side[]): { readonly treated: number; readonly untreated: number } {
  const treated = sides.filter((side) => side === 'treated').length;
  return { treated, untreated: sides.length - treated };
}

function dampFront({ trial, readings }: AbilityGrounds): Ability {
  const heightOf = new Map(trial.stations.map((one) => [JSON.stringify([one.wall, one.station]), one.height_mm]));
  const byWall = distinctBy(
    readings,
    ({ wall }) => wall,
    ({ wall, station }) => heightOf.get(JSON.stringify([wall, station])),
  );
  const heights = Math.max(0, ...[...byWall.values()].map(({ size }) => size));
  return { id: 'damp-front', heights, needed: heightsOfFront, can: heights >= heightsOfFront ? 'yes' : 'no' };
}

function drying({ trial, visits: all }: AbilityGrounds): Ability {
  const first = trial.walls.flatMap(({ treatedOn }) => treatedOn ?? []).toSorted()[0];
  const visits = first === undefined ? 0 : all.filter(({ from }) => from >= first).length;
  return { id: 'drying', visits, needed: visitsOfDrying, can: visits >= visitsOfDrying ? 'yes' : 'not-yet' };
}

function salts({ cores }: Trial): Ability {
  const weighedHumid = cores.filter(({ humid_g }) => humid_g !== undefined).length;
  return { id: 'salts', cores: cores.length, weighedHumid, can: weighedHumid > 0 ? 'yes' : 'no' };
}
