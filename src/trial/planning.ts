/** What the plan says of the trial's size, for `fairwall plan`; an opinion does not look at it. */
export interface PlanningKeys {
  readonly design: PlanningDesign;
  /** Of both sides together. */
  readonly walls: number;
  /** Names of the walls, where they are known; then as many as `walls`. */
  readonly list?: readonly ListedWall[];
  /** For each arm of the plan in its order: walls in all, or in each block, or houses. Absent: alike for every arm. */
  readonly perArm?: readonly number[];
  /** Walls in a house, of the design `houses`. */
  readonly wallsPerHouse?: number;
  /** Places on each wall. */
  readonly stations: number;
  readonly heights_mm?: readonly number[];
  readonly visitsBefore: number;
  readonly visitsAfter: number;
  readonly spreads?: StatedSpreads;
  /** A trial folder from which the spreads are taken: a path beside the plan, or `bundled:NAME`. */
  readonly pilot?: string;
  /** Of a wall's successive visits; 0 unless stated. */
  readonly autocorrelation: number;
  /** Of walls in one pair, block or house. Absent: that of the pilot, else 0. */
  readonly correlation?: number;
  /** Standard uncertainty of one reading, in the unit of the outcome. */
  readonly measurement: number;
  /** The chance that a wall (or house) is lost. */
  readonly dropOut: number;
  /** The chance that a wall is not read on a visit. */
  readonly missedVisits: number;
  /** The true effect that is to be found, on the better side. Absent: twice the margin. */
  readonly effect?: number;
  /** The chance wanted of finding it. */
  readonly chance: number;
  readonly costs?: PlannedCosts;
  /** The first day on which walls can be read. */
  readonly firstDay?: string;
  readonly thickness_mm?: number;
  readonly dryDensity_kg_m3?: number;
  /** Mean vapour pressure difference between a wet wall and the air. */
  readonly pressure_pa?: number;
  /** How high the damp stands. */
  readonly dampTop_mm?: number;
}

export type PlanningDesign = 'complete' | 'pairs' | 'blocks' | 'houses' | 'two-walls';

export interface ListedWall {
  readonly wall: string;
  /** Of the pair or block. */
  readonly block?: string;
  /** The house. */
  readonly site?: string;
  readonly before?: number;
}

/** Standard deviations, in the unit of the outcome. */
export interface StatedSpreads {
  readonly walls: number;
  readonly stations: number;
  readonly visits: number;
  readonly readings: number;
  readonly source?: string;
}

export interface PlannedCosts {
  readonly wall: number;
  readonly core: number;
  readonly visit: number;
  readonly month: number;
  readonly currency: string;
}
