import type { Reason, Side } from '../../analysis/index.js';
import type { VerdictCode } from '../../analysis/verdict-code.js';
import type {
  BetweenReaders,
  CalibrationByUncertainties,
  GravimetricBudget,
  InstrumentDrift,
  MeterCalibration,
  MonotoneCalibration,
  ReadingRises,
  TrackedChange,
} from '../../moisture/index.js';
import type { Concordance, Interval, LimitsOfAgreement } from '../../statistics/index.js';
import type { InstrumentKind, ReadingScale } from '../../trial/index.js';
import type { BandPoint } from './band-of-calibration.js';

/** Something that was computed, or why not. */
export type Computed<Value> =
  | { readonly kind: 'computed'; readonly value: Value }
  | { readonly kind: 'not-computed'; readonly reason: Reason };

/** What one instrument measured in this trial, and what that can bear. */
export interface InstrumentFacts {
  readonly instrument: string;
  readonly kind: InstrumentKind;
  readonly isOutcome: boolean;
  /** Of its readings as they stand: the outcome's unit, that of cores, or `index`. */
  readonly unit: string;
  /** Of a meter. */
  readonly readingRises?: ReadingRises;
  /** Of a meter: readings over decades are calibrated, and compared beside the outcome, by their base-10 logarithms. */
  readonly scale?: ReadingScale;
  readonly use: InstrumentUse;
  /** For meters where the trial has cores: one for each material of its walls. */
  readonly calibrations: readonly MaterialCalibration[];
  /** Where `checks.csv` has readings of it. */
  readonly drift?: Computed<DriftFacts>;
  /** For meters where the trial has cores. */
  readonly tracking?: Computed<TrackedChange>;
  /** Where readers read the same places on the same day, and again. */
  readonly readers?: BetweenReaders;
  /** Where it has readings below its detection limit in the windows. */
  readonly belowDetection?: BelowDetection;
  /** The primary comparison made with it: as it stands, and in moisture where it is calibrated. */
  readonly answers: readonly InstrumentAnswer[];
  /** Of a typical core, from what the protocol and the masses state; only for cores. */
  readonly budget?: GravimetricBudget;
}

export interface InstrumentUse {
  readonly readings: number;
  readonly belowDetection: number;
  readonly missing: number;
  readonly walls: number;
  readonly stations: number;
  readonly days: number;
  /** ISO days; absent without readings. */
  readonly first?: string;
  readonly last?: string;
}

export interface MaterialCalibration {
  readonly material: string;
  readonly unit: string;
  readonly outcome: Computed<CalibratedMaterial>;
}

export interface CalibratedMaterial {
  readonly calibration: MeterCalibration;
  /** The pairs on the scale of the line. */
  readonly plotted: readonly { readonly moisture: number; readonly reading: number }[];
  /** The line across the range of its cores, with its limits. */
  readonly band: readonly BandPoint[];
  /** Readings on walls of this material, and those that stand for moisture drier or wetter than any core of the calibration. */
  readonly readings: number;
  readonly outside: number;
  readonly agreement: Computed<LimitsOfAgreement>;
  /** Of the walls' means. */
  readonly concordance: Computed<Concordance>;
  /** The alternative that asks for no straight line. */
  readonly monotone: Computed<MonotoneCalibration>;
  /** By York's line, where every core and every reading has an uncertainty; what is in those is not all, so it is shown beside. */
  readonly byUncertainties?: Computed<CalibrationByUncertainties>;
}

export interface DriftFacts extends InstrumentDrift {
  /** The drift in moisture, by the slope of its calibration; absent without exactly one. */
  readonly inMoisture?: { readonly drift: number; readonly unit: string };
}

export interface InstrumentAnswer {
  /** `loss-corrected`: of cores, for the share of their water that the plan says was lost in drilling. */
  readonly scale: 'as-read' | 'calibrated' | 'loss-corrected';
  readonly unit: string;
  readonly result: AnswerResult;
}

export type AnswerResult = Computed<{
  readonly estimate: number;
  readonly interval: Interval;
  readonly walls: { readonly treated: number; readonly untreated: number };
  /** Only where the unit is the margin's. */
  readonly code?: VerdictCode;
}>;

/** The primary comparison with the instrument as it reads, by ways of counting what lies below its limit. */
export interface BelowDetection {
  /** Readings below their limit, and all, on walls of the comparison in the windows. */
  readonly below: number;
  readonly readings: number;
  /** Walls with any. */
  readonly walls: number;
  readonly where: Readonly<Record<Side, { readonly before: number; readonly after: number }>>;
  /** As in the analyses. */
  readonly leftOut: AnswerResult;
  readonly likelihood: AnswerResult;
  readonly productLimit: AnswerResult;
  /** Whatever the values below their limits were, from 0 to the limit, the difference lies between these. */
  readonly bounds: Computed<{ readonly lower: number; readonly upper: number }>;
}
