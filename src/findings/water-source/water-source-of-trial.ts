import type { Side } from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import { type Correlation, mean } from '../../statistics/index.js';
import { daySorter, type Trial, type WaterSource, waterSources } from '../../trial/index.js';
import { surfaceOfWalls } from '../air/surface-of-walls.js';
import { type DepthsBefore, depthsBefore, type HeightsBefore, heightsBefore, placedBefore } from './places-before.js';
import { rainAndMoisture } from './rain-and-moisture.js';
import { type SaltsBeforeTreatment, saltsOverHeight } from './salts-over-height.js';
import {
  aboveDewPointBelow,
  apartFromRainBelow,
  bearings,
  condensingFrom,
  type Look,
  looksFor,
  mostlyHygroscopicFrom,
  mostlyLiquidUpTo,
  rainAlarm,
  type SignCode,
  saltsRaisedFrom,
} from './signs.js';

/** What was measured that speaks of where the water of the walls comes from; each absent where the folder does not hold it. */
export interface WaterFacts {
  readonly heights?: HeightsBefore;
  readonly depths?: DepthsBefore;
  /** Share of the moisture before the treatment that humid air alone would give, 0 to 1. */
  readonly hygroscopicShare?: number;
  readonly rain?: Correlation;
  /** Mean over walls of the share of the time before the treatment below the dew point, 0 to 1. */
  readonly surface?: { readonly walls: number; readonly condensingShare: number };
  readonly salts?: SaltsBeforeTreatment;
}

/** A source that is possible, with what speaks for it and against it: never a diagnosis. */
interface PossibleSource {
  readonly source: WaterSource;
  readonly for: readonly SignCode[];
  readonly against: readonly SignCode[];
  /** What would help to tell it from the others and is not in the folder. */
  readonly notLookedFor: readonly Look[];
}

export interface WaterSourcePart {
  readonly facts: WaterFacts;
  readonly signs: readonly SignCode[];
  /** Every source, in a fixed order. */
  readonly possible: readonly PossibleSource[];
}

/** Facts of the walls’ water before the treatment, as far as moisture that is better the lower it is tells them. */
export function waterFacts(
  trial: Trial,
  used: readonly MoistureReading[],
  sides: ReadonlyMap<string, Side>,
): WaterFacts {
  const { outcome, margin, confidence } = trial.protocol;
  const wetness = outcome.better === 'lower' ? used : [];
  const placed = placedBefore(trial, wetness, sides);
  const [heights, depths] = [heightsBefore(placed, margin), depthsBefore(placed, confidence)];
  const rain = rainAndMoisture(trial, wetness, sides);
  const surface = surfaceBefore(trial, sides);
  const salts = saltsOverHeight(trial, sides);
  return {
    ...present({ heights, depths, rain, surface, salts }),
  };
}

function surfaceBefore(trial: Trial, sides: ReadonlyMap<string, Side>): WaterFacts['surface'] {
  if (trial.climate.every(({ surface_c }) => surface_c === undefined)) return undefined;
  const sorted = daySorter(trial);
  const shares = [...sides.keys()].flatMap((wall) =>
    surfaceOfWalls(
      { ...trial, walls: trial.walls.filter((one) => one.wall === wall) },
      (day) => sorted(wall, day) === 'before',
    ).map(({ condensingShare }) => condensingShare),
  );
  return shares.length === 0 ? undefined : { walls: shares.length, condensingShare: mean(shares) };
}

/** Undefined where nothing measured speaks of the source. */
export function waterSource(facts: WaterFacts): WaterSourcePart | undefined {
  const signs = signsOf(facts);
  if (signs.length === 0) return undefined;
  const looked = lookedFor(facts);
  return {
    facts,
    signs,
    possible: waterSources.map((source) => ({
      source,
      for: signs.filter((sign) => bearings[sign].for.includes(source)),
      against: signs.filter((sign) => bearings[sign].against.includes(source)),
      notLookedFor: looksFor[source].filter((look) => !looked.has(look)),
    })),
  };
}

function lookedFor({ heights, depths, hygroscopicShare, rain, surface, salts }: WaterFacts): ReadonlySet<Look> {
  const each: Readonly<Record<Look, unknown>> = { heights, depths, humid: hygroscopicShare, rain, surface, salts };
  return new Set((Object.keys(each) as Look[]).filter((look) => each[look] !== undefined));
}

function signsOf({ heights, depths, hygroscopicShare, rain, surface, salts }: WaterFacts): readonly SignCode[] {
  return [
    ...(heights === undefined ? [] : signOfHeights(heights)),
    ...(depths === undefined ? [] : signOfDepths(depths)),
    ...(hygroscopicShare === undefined ? [] : signOfShare(hygroscopicShare)),
    ...(rain === undefined ? [] : signOfRain(rain)),
    ...(surface === undefined ? [] : signOfSurface(surface.condensingShare)),
    ...(salts === undefined ? [] : signsOfSalts(salts)),
  ];
}

function signOfHeights({ shape }: HeightsBefore): readonly SignCode[] {
  switch (shape) {
    case 'falling':
      return ['wettest-at-foot'];
    case 'rising':
      return ['wettest-at-head'];
    case 'peaked':
      return ['wettest-part-way'];
    case 'flat':
      return ['alike-at-all-heights'];
    case 'undecided':
      return [];
  }
}

function signOfDepths({ lower, upper }: DepthsBefore): readonly SignCode[] {
  if (lower > 0) return ['wetter-at-surface'];
  return upper < 0 ? ['wetter-inside'] : [];
}

function signOfShare(share: number): readonly SignCode[] {
  if (share >= mostlyHygroscopicFrom) return ['mostly-hygroscopic'];
  return share <= mostlyLiquidUpTo ? ['mostly-liquid'] : [];
}

function signOfRain(rain: Correlation): readonly SignCode[] {
  if (rain.estimate > 0 && rain.pValue < rainAlarm) return ['follows-rain'];
  return rain.interval.upper < apartFromRainBelow ? ['apart-from-rain'] : [];
}

function signOfSurface(share: number): readonly SignCode[] {
  if (share >= condensingFrom) return ['condenses'];
  return share < aboveDewPointBelow ? ['above-dew-point'] : [];
}

function signsOfSalts({ walls, raised, low, isBand }: SaltsBeforeTreatment): readonly SignCode[] {
  return [
    ...(isBand ? (['salt-band'] as const) : []),
    ...(raised >= saltsRaisedFrom * walls ? (['salts-raised'] as const) : []),
    ...(low === walls ? (['salts-low'] as const) : []),
  ];
}
