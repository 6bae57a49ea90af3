/** Which sound trial a fault is planted in. */
export interface Base {
  readonly design: 'complete' | 'pairs' | 'blocks-of-four';
  readonly perArm: number;
  /** What the treatment does to a wall, in percent by mass: 0, or below it where the wall dries. */
  readonly effect: number;
  readonly outcome: 'cores' | 'direct-meter' | 'hand-held-meter' | 'potential' | 'embedded-sensors';
  /** Days in each window on which every wall is read. */
  readonly visits: 3 | 6;
  readonly arms: 'device-and-sham' | 'sham-and-control' | 'two-treatments' | 'walls-outside';
  /** What is recorded beside the outcome. */
  readonly beside: 'nothing' | 'humid-masses' | 'hand-held-meter' | 'second-reader' | 'station-out-of-reach';
}

/** Two walls, one treated, read on many days. */
export interface SeriesBase {
  readonly visits: 12 | 24;
  /** From one visit to the next, of the difference of the two walls. */
  readonly autocorrelation: number;
  readonly effect: number;
}

/** In percent by mass: the smallest worthwhile difference of every trial made here. */
export const MARGIN = 2;

export const plainBase: Base = {
  design: 'complete',
  perArm: 8,
  effect: 0,
  outcome: 'cores',
  visits: 3,
  arms: 'device-and-sham',
  beside: 'nothing',
};

/** Standard deviations, in percent by mass (the order seen in brick; common practice, no source). */
export const SPREAD = {
  wall: 1.5,
  wallChange: 0.9,
  station: 0.5,
  stationChange: 0.6,
  season: 0.5,
  reading: 0.3,
} as const;

export const windows = {
  before: { from: '2024-03-01', to: '2024-05-31' },
  after: { from: '2025-03-01', to: '2025-05-31' },
} as const;

/** A logger reads on every day of them. */
export const loggedWindows = {
  before: { from: '2024-03-01', to: '2024-03-31' },
  after: { from: '2025-03-01', to: '2025-03-31' },
} as const;

/** Of the treatment, and of fixing the shams. */
export const treatmentDays = ['2024-06-10', '2024-06-11'] as const;
