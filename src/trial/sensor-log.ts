/** Days with less than this share of their readings do not become readings of a trial (common practice, no source). */
export const leastCoverage = 0.75;

/** A log of embedded sensors, reduced to what a trial needs: its daily means, and what is wrong with it. */
export interface SensorLog {
  readonly file: string;
  /** Rows below the header. Every one is a reading of a sensor, or counted in `leftOut`. */
  readonly rows: number;
  readonly leftOut: LogRowsLeftOut;
  /** Whether stamps carry a zone (`Z`, `+01:00`) or are the time on some wall clock. */
  readonly clock: 'with-zone' | 'without-zone';
  /** Whether each sensor's rows stood in order of time; else they were sorted. */
  readonly order: 'in-order' | 'sorted';
  /** One for each sensor that was asked for, in that order; a silent sensor has no days. */
  readonly sensors: readonly SensorRecord[];
}

/** Rows that enter no daily mean as a reading, by reason. */
export interface LogRowsLeftOut {
  /** Empty or `NA`. */
  readonly missing: number;
  /** `<0.5`. */
  readonly belowDetection: number;
  /** Sensor, time and value were there already. */
  readonly repeated: number;
  /** Sensor and time were there already, with another value: the first in the file counts. */
  readonly contradicting: number;
}

/** One sensor's part of a log. */
export interface SensorRecord {
  readonly sensor: string;
  /** Distinct readings, spikes and stuck values among them. */
  readonly readings: number;
  /** Seconds from one reading to the next: the median. 0 for fewer than two readings. */
  readonly interval_s: number;
  readonly days: readonly SensorDay[];
  readonly gaps: LogGaps;
  readonly stuck: StuckRuns;
  readonly spikes: LogJumps;
  readonly steps: LogJumps;
  /** Absent where it could not be looked for: fewer than 20 changes from day to day shared with two others. */
  readonly drift?: SensorDrift;
  /** ISO days on which the wall clock was set back or forward, as summer time ends and begins. */
  readonly clockChanges: readonly string[];
}

/** A sensor's mean of one day, as its stamps write the day. */
export interface SensorDay {
  /** ISO day. */
  readonly day: string;
  /** Mean of the readings that are neither spikes nor stuck. */
  readonly mean: number;
  /** How many these are. */
  readonly readings: number;
  /** Their share of the readings that the sensor's interval leads to expect, at most 1. */
  readonly coverage: number;
  /** Row of the day's first reading; the header is row 1. */
  readonly row: number;
}

/** Spacings of more than one and a half intervals. */
export interface LogGaps {
  readonly count: number;
  /** Readings that would have stood in them. */
  readonly missing: number;
  readonly longest_s: number;
  /** ISO day on which the longest began; absent without gaps. */
  readonly longestFrom?: string;
}

/** Runs of one and the same value, too long for this sensor. */
export interface StuckRuns {
  readonly count: number;
  readonly readings: number;
  readonly longest_s: number;
  readonly longestFrom?: string;
}

export interface LogJumps {
  readonly count: number;
  /** Of the largest, with its sign; absent where there is none. */
  readonly largest?: number;
  /** ISO day of the largest. */
  readonly largestOn?: string;
}

/** How a sensor drifted against the others of its log. */
export interface SensorDrift {
  /** Median, over the days, of its change from day to day less the others' median change. */
  readonly perDay: number;
  readonly standardError: number;
  /** Whether the drift is beyond five standard errors. */
  readonly drifts: boolean;
}
