import type { PlanningKeys } from './planning.js';
import type { WaterSource } from './water-sources.js';

/** What was planned before the readings: the content of `protocol.json`, checked. */
export interface Protocol {
  readonly title: string;
  readonly claim: string;
  readonly outcome: Outcome;
  /**
   * Smallest difference worth paying for, in the outcome's unit, positive. Absent when none was stated, and in the plan as read
   * where a pass mark is to be the margin; in an opinion it then holds what the mark comes to.
   */
  readonly margin?: number;
  /** Level of the intervals, between 0.5 and 1, for instance 0.95. */
  readonly confidence: number;
  readonly arms: readonly Arm[];
  readonly instruments: readonly Instrument[];
  /** Absent when none were stated: before and after then cannot be distinguished. */
  readonly windows?: Windows;
  readonly allocation: Allocation;
  /** How walls came into the trial: `wettest` where they were picked for being wet. Absent when not stated. */
  readonly selection?: WallSelection;
  readonly blinding: BlindingPlan;
  readonly disclosures: Disclosures;
  /** ISO date on which the plan was fixed. Absent when undated. */
  readonly plannedOn?: string;
  /** Which arms make the primary comparison. Absent: every treated role against all others. */
  readonly compare?: Comparison;
  /** Where the margin comes from: a standard, an agreement. */
  readonly marginSource?: string;
  /** The source of water that the treatment is meant against. Absent: rising damp. */
  readonly against?: WaterSource;
  /** A published or agreed pass mark, judged beside the verdict, and its margin where the plan says so. */
  readonly passMark?: PassMark;
  /** Outcomes beside the primary one, in the order in which they are tested; none of them moves the verdict. */
  readonly secondary?: readonly Outcome[];
  /** The walls among which those of the trial were picked for being wet. */
  readonly screened?: ScreenedWalls;
  /** Height above which the treatment cannot act: an effect there would be a false one. */
  readonly unaffectedAbove_mm?: number;
  /** The electric field that the treatment is said to make in the wall: the water that it could move is set beside evaporation. */
  readonly claimedField_v_per_m?: number;
  /** What was done to the treated walls, and of electrodes in them which pole is in the wall. */
  readonly treatment?: Treatment;
  /** At or below which a wall counts as dry, in the unit of the outcome. */
  readonly dryBelow?: number;
  /** Adjustments of the difference that were chosen before the readings; the others are sensitivity checks. */
  readonly adjustments?: readonly AdjustmentName[];
  /** How far apart a core and a reading may be that calibrate a meter. Absent: the same station and day. */
  readonly calibration?: CalibrationPlan;
  /** The size of the trial as it was planned. An opinion does not look at it. */
  readonly planning?: PlanningKeys;
}

export interface CalibrationPlan {
  /** At most so many days between core and reading. */
  readonly days: number;
  /** At most so far apart on the wall, by height and position. */
  readonly distance_mm: number;
}

export type TreatmentKind = 'injected' | 'cut' | 'electrodes' | 'device' | 'other';

/** Which pole the electrode in the wall is; the other is in the ground, or in another wall. */
export type ElectrodePolarity = 'anode-in-wall' | 'cathode-in-wall';

/** What kind of treatment is on trial. */
export interface Treatment {
  readonly kind: TreatmentKind;
  /** Of electrodes, as planned. */
  readonly polarity?: ElectrodePolarity;
}

/** `weather` is the vapour pressure difference of the air on record; `rain` and `heating` are those of `climate.csv`. */
export type AdjustmentName = 'season' | 'weather' | 'rain' | 'heating';

/** What a standard, a tender or an agreement asks for, with where it asks. */
export type PassMark = (ReductionMark | TargetMark) & {
  readonly source: string;
  /** Whether it also gives the margin; then no margin is stated beside it. */
  readonly asMargin: boolean;
};

/** A reduction against the untreated walls at the same time, in percent of their mean. */
export interface ReductionMark {
  readonly kind: 'reduction';
  readonly reduction_pct: number;
}

/** A value that the treated walls are to reach by a day: agreed for buildings, where nothing untreated may stand beside. */
export interface TargetMark {
  readonly kind: 'target';
  /** In the outcome's unit. */
  readonly target: number;
  /** ISO date. */
  readonly by: string;
}

/** In the unit of the outcome; the standard deviation is that of single measurements. */
export interface ScreenedWalls {
  readonly walls: number;
  readonly mean: number;
  readonly standardDeviation: number;
  readonly cutoff: number;
}

export interface Outcome {
  /** Name of an entry of `Protocol.instruments`. */
  readonly instrument: string;
  readonly quantity: string;
  readonly unit: string;
  readonly better: 'lower' | 'higher';
}

export type ArmRole = 'treated' | 'control' | 'sham';

export interface Arm {
  readonly arm: string;
  readonly role: ArmRole;
}

export type InstrumentKind =
  | 'gravimetric'
  | 'carbide'
  | 'microwave'
  | 'resistance'
  | 'capacitance'
  | 'humidity-probe'
  | 'embedded-sensor'
  | 'potential'
  | 'direct';

export interface Instrument {
  readonly instrument: string;
  readonly kind: InstrumentKind;
  /** Smallest step of the balance's display in grams; only for `gravimetric`. */
  readonly resolution_g?: number;
  /** Standard uncertainty of one weighing in grams, from the balance's certificate; only for `gravimetric`. */
  readonly standard_uncertainty_g?: number;
  /** What touches the wall; only for `potential`, as the following three. */
  readonly electrode?: string;
  /** What the wall is measured against, and where it is. */
  readonly reference?: string;
  readonly polarity?: 'point-minus-reference' | 'reference-minus-point';
  /** Input impedance of the meter. */
  readonly impedance_mohm?: number;
  /** What it stands for in `trays.csv`: the refill in ml/day, or the mass of the whole specimen in kg; only for `direct`. */
  readonly fromTrays?: 'refill' | 'mass';
  /** Which way a meter's reading runs; `with-moisture` unless stated. A resistance in ohms runs against it. */
  readonly readingRises?: 'with-moisture' | 'against-moisture';
  /** How a meter's readings are calibrated: `linear` unless stated; `logarithmic` for those that run over decades, such as ohms. */
  readonly scale?: ReadingScale;
  /** Share of a core's water that the heat of drilling drives out, in percent of the water; only for `gravimetric`. */
  readonly drilling_loss_pct?: number;
  /** Standard uncertainty of it, in percentage points of that share. */
  readonly drilling_loss_uncertainty_pct?: number;
}

export type ReadingScale = 'linear' | 'logarithmic';

/** Days from `from` to `to`, both included, as ISO dates. */
export interface Window {
  readonly from: string;
  readonly to: string;
}

export interface Windows {
  readonly before: Window;
  readonly after: Window;
}

export type AllocationMethod = 'randomised' | 'randomised-in-blocks' | 'matched-pairs' | 'chosen';

/** What was independently allocated: single walls, or whole sites with all their walls. */
export type AllocationUnit = 'wall' | 'site';

export interface Allocation {
  readonly method: AllocationMethod;
  /** Absent when not stated: it is then seen from how arms lie in sites and blocks. */
  readonly unit?: AllocationUnit;
  readonly seed?: number;
  /** In a sealed plan, in place of the seed: SHA-256 of its digits. */
  readonly seedSha256?: string;
  /** An allocation whose sides differed by more than this in their before means was drawn again; in the unit of the outcome. */
  readonly mostBeforeDifference?: number;
  readonly by: string;
}

export type WallSelection = 'wettest' | 'not-by-moisture';

/** Who was kept from knowing which wall was treated. */
export interface BlindingPlan {
  readonly readers: boolean;
  readonly occupants: boolean;
  readonly analyst: boolean;
}

export interface Disclosures {
  readonly funding: string;
  readonly interests: string;
}

export interface Comparison {
  readonly treated: readonly string[];
  readonly untreated: readonly string[];
}
