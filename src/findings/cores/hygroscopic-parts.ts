import {
  excessOfSample,
  type HeightPattern,
  type HumidCondition,
  heightPatternOfWalls,
  hygroscopicMoisture,
  isSameCondition,
  type MarkedLimit,
  patternPossibilities,
  saltsNearCondition,
} from '../../moisture/index.js';
import { groupBy } from '../../plain/group-by.js';
import { present } from '../../plain/present.js';
import { mean } from '../../statistics/index.js';
import { type DryingBatchRecord, type Trial, unitsPerPercentByMass } from '../../trial/index.js';
import { humidityBeside } from '../air/humidity-beside.js';
import type { HygroscopicFacts, HygroscopicProfile } from './cores-part.js';
import type { PlacedCore, WindowName } from './placed-cores.js';

/** With fewer there is hardly a spread between walls to read a pattern from. Our own rule, no source. */
const wallsForPattern = 3;
const heightsForPattern = 3;
/** Percentage points that would matter between two heights, where no margin in percent by mass is stated. Our own rule. */
const usualRelevant_pp = 1;

/** Air that holds all the water it can, whatever more a hygrometer shows. */
const saturated_pct = 100;

interface Parted {
  readonly placed: PlacedCore;
  readonly condition: HumidCondition;
}

interface Parts {
  readonly placed: PlacedCore;
  readonly hygroscopic_pct: number;
  readonly excess_pct: number;
  readonly excessUncertainty_pp: number;
}

/** What humid air alone would give, and what lies above it; nothing where no core was weighed humid. */
export function hygroscopicParts(trial: Trial, cores: readonly PlacedCore[]): HygroscopicFacts | undefined {
  const humid = cores.filter(({ core }) => core.humid_g !== undefined);
  if (humid.length === 0) return undefined;
  const batches = new Map((trial.batches ?? []).map((batch) => [batch.batch, batch]));
  const stated = humid.flatMap((placed): Parted[] => {
    const condition = conditionOf(batches.get(placed.core.batch ?? ''));
    return condition === undefined ? [] : [{ placed, condition }];
  });
  const conditioned = stated.filter((each) => each.condition.setpoint_rh_pct < saturated_pct);
  const groups = [...groupBy(conditioned, ({ condition }) => JSON.stringify(condition)).values()];
  const condition = groups.sort((one, other) => other.length - one.length)[0]?.[0]?.condition;
  const used =
    condition === undefined
      ? []
      : conditioned.filter((each) => isSameCondition(each.condition, condition)).map(partsOf);
  const refused = [
    { reason: { code: 'batch-air-unstated' }, cores: humid.length - stated.length },
    { reason: { code: 'batch-air-saturated' }, cores: stated.length - conditioned.length },
    { reason: { code: 'batch-air-unlike' }, cores: conditioned.length - used.length },
  ] as const;
  return {
    ...present({ condition }),
    cores: used.length,
    refused: refused.filter((each) => each.cores > 0),
    negative: used.filter(({ excess_pct }) => excess_pct < 0).length,
    ...(condition === undefined ? {} : { salts: saltsNearCondition(condition) }),
    ...airOf(trial, used, condition),
    profiles: profilesOf(used, relevantIn(trial)),
  };
}

function conditionOf(batch: DryingBatchRecord | undefined): HumidCondition | undefined {
  const { humidity_pct, humidTemperature_c } = batch ?? {};
  if (humidity_pct === undefined || humidTemperature_c === undefined) return undefined;
  return { setpoint_rh_pct: humidity_pct, temperature_c: humidTemperature_c };
}

function partsOf({ placed, condition }: Parted): Parts {
  const { container_g, wet_g = 0, dry_g = 0, humid_g = 0 } = placed.core;
  const masses = { container_g, wet_g, dry_g, humid_g };
  const excess = excessOfSample(masses, condition, placed.weighing_g);
  return {
    placed,
    hygroscopic_pct: hygroscopicMoisture(masses, condition, placed.weighing_g).value,
    excess_pct: excess.value,
    excessUncertainty_pp: excess.standardUncertainty ?? 0,
  };
}

/** Excess further below zero than so many of its standard uncertainties is clear. */
export const clearly: MarkedLimit = { value: 2, mark: 'our convention' };

function airOf(
  trial: Trial,
  parts: readonly Parts[],
  condition: HumidCondition | undefined,
): Pick<HygroscopicFacts, 'air'> {
  const humidity = humidityBeside(trial);
  const beside = parts.flatMap((part) => {
    const { window, wall } = part.placed;
    const humidity_pct = window === undefined ? undefined : humidity(wall.wall, window);
    return humidity_pct === undefined ? [] : [{ ...part, humidity_pct }];
  });
  if (condition === undefined || beside.length === 0) return {};
  const drier = beside.filter(
    ({ humidity_pct, excess_pct, excessUncertainty_pp }) =>
      humidity_pct > condition.setpoint_rh_pct && excess_pct < -clearly.value * excessUncertainty_pp,
  );
  return {
    air: { mean_pct: mean(beside.map(({ humidity_pct }) => humidity_pct)), drierThanAirAllows: drier.length },
  };
}

/** The margin, where it is in percent by mass or can be turned into it. */
function relevantIn({ protocol: { margin, outcome } }: Trial): number {
  const scale = unitsPerPercentByMass(outcome.unit);
  return margin === undefined || scale === undefined ? usualRelevant_pp : margin / scale;
}

function profilesOf(parts: readonly Parts[], relevant_pp: number): readonly HygroscopicProfile[] {
  const arms = groupBy(parts, ({ placed }) => placed.wall.arm);
  return [...arms.values()].flatMap((own) =>
    (['before', 'after'] as const).flatMap((window) =>
      profileOf(
        own.filter(({ placed }) => placed.window === window),
        window,
        relevant_pp,
      ),
    ),
  );
}

function profileOf(
  parts: readonly Parts[],
  window: WindowName,
  relevantDifference_pp: number,
): readonly HygroscopicProfile[] {
  const [first] = parts;
  if (first === undefined) return [];
  const { arm } = first.placed.wall;
  const heights = [...groupBy(parts, ({ placed }) => String(placed.height_mm ?? ''))]
    .filter(([height]) => height !== '')
    .map(([height, own]) => ({ height_mm: Number(height), byWall: wallMeans(own) }))
    .sort((one, other) => one.height_mm - other.height_mm);
  if (heights.length === 0) return [];
  const pattern = patternOf(heights, relevantDifference_pp);
  return [
    {
      ...{ arm, side: first.placed.side, window },
      heights: heights.map(({ height_mm, byWall }) => ({
        height_mm,
        walls: byWall.size,
        hygroscopic_pct: mean([...byWall.values()].map((wall) => wall.hygroscopic_pct)),
        excess_pct: mean([...byWall.values()].map((wall) => wall.excess_pct)),
      })),
      ...present({ pattern }),
    },
  ];
}

type WallMean = Pick<Parts, 'hygroscopic_pct' | 'excess_pct'>;

interface HeightWalls {
  readonly height_mm: number;
  readonly byWall: ReadonlyMap<string, WallMean>;
}

/** Walls are the units: the cores of a wall at one height count as one. */
function wallMeans(parts: readonly Parts[]): ReadonlyMap<string, WallMean> {
  const walls = groupBy(parts, ({ placed }) => placed.wall.wall);
  return new Map(
    [...walls].map(([wall, own]) => [
      wall,
      {
        hygroscopic_pct: mean(own.map(({ hygroscopic_pct }) => hygroscopic_pct)),
        excess_pct: mean(own.map(({ excess_pct }) => excess_pct)),
      },
    ]),
  );
}

function patternOf(heights: readonly HeightWalls[], relevantDifference_pp: number): HygroscopicProfile['pattern'] {
  const walls = wallsWithAll(heights);
  if (heights.length < heightsForPattern || walls.length < wallsForPattern) return undefined;
  const shapeOf = (part: keyof WallMean) =>
    heightPatternOfWalls(
      walls.map((wall) =>
        heights.flatMap(({ height_mm, byWall }) => {
          const own = byWall.get(wall);
          return own === undefined ? [] : [{ height_mm, value_pct: own[part] }];
        }),
      ),
      { relevantDifference_pp },
    );
  const [excess, hygroscopic] = [shapeOf('excess_pct'), shapeOf('hygroscopic_pct')];
  const possibilities = patternPossibilities(excess, hygroscopic);
  return { excess: shapeFound(excess), hygroscopic: shapeFound(hygroscopic), possibilities };
}

function shapeFound({ shape, because }: HeightPattern): Pick<HeightPattern, 'shape' | 'because'> {
  return because === undefined ? { shape } : { shape, because };
}

/** Heights are compared inside walls. */
function wallsWithAll(heights: readonly HeightWalls[]): readonly string[] {
  const [first, ...others] = heights;
  return [...(first?.byWall.keys() ?? [])].filter((wall) => others.every(({ byWall }) => byWall.has(wall)));
}
