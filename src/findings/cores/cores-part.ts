import type { Reason, Side } from '../../analysis/index.js';
import type {
  HeightPattern,
  HumidCondition,
  Possibility,
  SaltsAtCondition,
  WallMapCell,
} from '../../moisture/index.js';
import type { AnswerCorrected } from './answer-corrected.js';
import type { MeanOfWalls } from './mean-of-walls.js';
import type { WindowName } from './placed-cores.js';
import type { UnitsOfArm } from './units-of-trade.js';

/** What the cores say beyond the answer; each part is absent where the folder states nothing for it. */
export interface CoresPart {
  readonly batches?: readonly BatchGroup[];
  readonly reused?: ReusedCoresFacts;
  readonly hygroscopic?: HygroscopicFacts;
  /** In percent by volume, kilograms a cubic metre and percent of saturation. */
  readonly units?: readonly UnitsOfArm[];
  readonly water?: readonly (WaterOfArm & ArmName)[];
  readonly fronts?: readonly (FrontsOfArm & ArmName)[];
  readonly maps?: readonly MapsOfArm[];
}

export interface ArmName {
  readonly arm: string;
  readonly side: Side;
}

/** Batches that were dried and conditioned alike. */
export interface BatchGroup {
  readonly batches: readonly string[];
  readonly cores: number;
  readonly oven_c?: number;
  readonly stopRule?: string;
  /** The largest of the group's. */
  readonly lastChange_pct?: number;
  /** The most that was still in a batch of the group, % of the mass; absent where no batch states the change before the last. */
  readonly stillIn_pct?: number;
  /** Whether the last change met the batches' own rule; absent where it cannot be told. */
  readonly isRuleMet?: boolean;
  readonly humidity_pct?: number;
  readonly humidTemperature_c?: number;
}

/** Cores that went back into the wall and were weighed again. */
export interface ReusedCoresFacts {
  readonly cores: number;
  readonly walls: number;
  /** Days on which one core was weighed, fewest and most. */
  readonly visits: { readonly fewest: number; readonly most: number };
  /** Of the cores with one dry mass for all visits: what a loss of grains or a gain of salt could account for. */
  readonly hidden?: {
    readonly cores: number;
    /** Medians over the cores, of the sizes. */
    readonly apparentChange_pp: number;
    readonly explainedBy_g: number;
    readonly explainedBy_pct: number;
  };
  /** Of the cores that were dried again later: the largest correction, by size. */
  readonly corrected?: {
    readonly cores: number;
    readonly largest_pp: number;
    /** Absent where cores are not the outcome. */
    readonly answer?: AnswerCorrected;
  };
  readonly serial: readonly (ArmName & {
    readonly lagOne: number;
    readonly cores: number;
    readonly visits: number;
    /** How many independent weighings tell a core's mean as well, by the serial correlation; never more than the visits. */
    readonly independentVisits: number;
    readonly expectedIfIndependent: number;
  })[];
}

export interface HygroscopicFacts {
  /** At which the cores used were weighed humid; absent where none could be used. */
  readonly condition?: HumidCondition;
  readonly cores: number;
  readonly refused: readonly { readonly reason: Reason; readonly cores: number }[];
  /** Cores whose excess is below zero; they are kept. */
  readonly negative: number;
  /** Salts that dissolve close to the condition; absent without one. */
  readonly salts?: SaltsAtCondition;
  /** The air beside the walls of the cores used, in their windows; absent where none was recorded. */
  readonly air?: {
    /** Mean relative humidity over the cores, in percent. */
    readonly mean_pct: number;
    /** Cores whose excess lies clearly below zero although the air beside their wall was more humid than the condition. */
    readonly drierThanAirAllows: number;
  };
  readonly profiles: readonly HygroscopicProfile[];
}

type ShapeFound = Pick<HeightPattern, 'shape' | 'because'>;

export interface HygroscopicProfile extends ArmName {
  readonly window: WindowName;
  /** From the lowest up; means over walls. */
  readonly heights: readonly {
    readonly height_mm: number;
    readonly walls: number;
    readonly hygroscopic_pct: number;
    readonly excess_pct: number;
  }[];
  /** Absent with too few heights or walls. */
  readonly pattern?: {
    readonly excess: ShapeFound;
    readonly hygroscopic: ShapeFound;
    readonly possibilities: readonly Possibility[];
  };
}

export interface LeftOutHere {
  readonly reason: Reason;
  readonly walls: number;
}

/** In kilograms of water a square metre of wall face. */
export interface WaterOfArm {
  readonly means?: { readonly before: MeanOfWalls; readonly after: MeanOfWalls; readonly change: MeanOfWalls };
  /** Of one wall in one window, from the weighings alone: the largest standard uncertainty. */
  readonly ofWeighing?: number;
  /** Of the walls in `means`: share of the thickness beyond the deepest core, and the water put there, before. */
  readonly beyond?: { readonly share: number; readonly water_kg_m2: number };
  readonly leftOut: readonly LeftOutHere[];
}

/** In mm above the floor. */
export interface FrontsOfArm {
  /** That were cored at heights enough. */
  readonly walls: number;
  readonly before?: MeanOfWalls;
  readonly after?: MeanOfWalls;
  /** Of the walls with a front in both windows. */
  readonly change?: MeanOfWalls;
  /** Walls whose readings limit their front to one side at most. */
  readonly open: Readonly<Record<WindowName, number>>;
  /** The same with no curve: moisture is only taken not to rise with height. */
  readonly byOrder: { readonly before?: MeanOfWalls; readonly after?: MeanOfWalls; readonly change?: MeanOfWalls };
  readonly notFound: Readonly<Record<WindowName, readonly LeftOutHere[]>>;
}

export interface MapsOfArm extends ArmName {
  readonly walls: number;
  readonly before: readonly WallMapCell[];
  readonly change: readonly WallMapCell[];
}
