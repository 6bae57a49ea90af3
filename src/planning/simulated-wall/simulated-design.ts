/** What is done to treated walls. `factor` is what is left of the supply or the sorptivity, or by how much more is given off. */
export type SimulatedTreatment =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'supply' | 'sorptivity' | 'evaporation'; readonly factor: number };

export type SimulatedLayout = 'complete' | 'pairs' | 'blocks-of-four' | 'houses';

/** Whether readers know the arm of a wall after the treatment, and whether they say so. */
export type ReadersKnow = 'nothing' | 'and-say-so' | 'and-hide-it';

/** A trial of simulated walls. Spreads are standard deviations. */
export interface SimulatedDesign {
  readonly layout: SimulatedLayout;
  /** Walls; in pairs and blocks of four as many as untreated ones. */
  readonly treated: number;
  readonly untreated: number;
  /** Of houses that were allocated whole. */
  readonly wallsPerHouse: number;
  /** Share of the variance between walls that walls of one block or house have in common. */
  readonly shared: number;
  readonly treatment: SimulatedTreatment;
  /** Of the logarithm of the treatment’s factor from wall to wall: above 0 treated walls spread further than untreated ones. */
  readonly treatmentSpread: number;
  /** Of the logarithm of the supply, by which each wall changes by itself between the windows. */
  readonly ownChange: number;
  /** `skewed` as a lognormal draw: most walls change little, and a few lose much of their supply. */
  readonly ownChangeShape: 'normal' | 'skewed';
  readonly season: 'yearly' | 'none';
  /** Correlation from one week to the next of how far a wall’s evaporation is from the season’s. */
  readonly autocorrelation: number;
  readonly heights_mm: readonly number[];
  /** In each window. */
  readonly visits: number;
  readonly instrument: 'cores' | 'meter';
  readonly readersKnow: ReadersKnow;
  /** By which knowing readers find treated walls drier than they are, in % by mass. */
  readonly shaved_pp: number;
  /** Share of the walls that are not read after the treatment, by chance. */
  readonly dropOut: number;
  /** Walls that a leak strikes between the windows, whatever their arm. */
  readonly leaks: number;
  /** Mean chloride content, % by mass. */
  readonly chloride_pct: number;
  /** Smallest worthwhile difference, % by mass. */
  readonly margin: number;
}

/** A sound trial with a treatment that does nothing. */
export const plainDesign: SimulatedDesign = {
  layout: 'complete',
  treated: 12,
  untreated: 12,
  wallsPerHouse: 3,
  shared: 0.5,
  treatment: { kind: 'nothing' },
  treatmentSpread: 0,
  ownChange: 0.25,
  ownChangeShape: 'normal',
  season: 'yearly',
  autocorrelation: 0.7,
  heights_mm: [300, 700, 1200],
  visits: 3,
  instrument: 'cores',
  readersKnow: 'nothing',
  shaved_pp: 0,
  dropOut: 0,
  leaks: 0,
  chloride_pct: 0,
  margin: 2,
};

/**
 * Whether a design can be simulated.
 *
 * @throws RangeError naming what cannot be
 */
export function checkDesign(design: SimulatedDesign): void {
  const whole = (name: 'treated' | 'untreated' | 'wallsPerHouse' | 'visits' | 'leaks', least: number) => {
    if (!(Number.isSafeInteger(design[name]) && design[name] >= least))
      throw new RangeError(`${name} must be a whole number from ${least}, got ${design[name]}`);
  };
  const share = (name: 'shared' | 'dropOut' | 'autocorrelation') => {
    if (!(design[name] >= 0 && design[name] < 1))
      throw new RangeError(`${name} must be from 0 to below 1, got ${design[name]}`);
  };
  const notNegative = (name: 'treatmentSpread' | 'ownChange' | 'shaved_pp' | 'chloride_pct') => {
    if (!(design[name] >= 0 && Number.isFinite(design[name])))
      throw new RangeError(`${name} must be 0 or more, got ${design[name]}`);
  };
  whole('treated', 1);
  whole('untreated', 1);
  whole('wallsPerHouse', 1);
  whole('visits', 1);
  whole('leaks', 0);
  for (const name of ['shared', 'dropOut', 'autocorrelation'] as const) share(name);
  for (const name of ['treatmentSpread', 'ownChange', 'shaved_pp', 'chloride_pct'] as const) notNegative(name);
  if (!(design.margin > 0)) throw new RangeError(`margin must be above 0, got ${design.margin}`);
  if (design.heights_mm.length === 0) throw new RangeError('heights_mm must hold at least one height');
  if (design.treatment.kind !== 'nothing' && !(design.treatment.factor >= 0))
    throw new RangeError(`the treatment’s factor must be 0 or more, got ${design.treatment.factor}`);
  checkLayout(design);
}

function checkLayout({ layout, treated, untreated, wallsPerHouse }: SimulatedDesign): void {
  const isPaired = layout === 'pairs' || layout === 'blocks-of-four';
  if (isPaired && treated !== untreated) throw new RangeError(`${layout} need as many treated walls as untreated ones`);
  if (layout === 'blocks-of-four' && treated % 2 !== 0)
    throw new RangeError('blocks of four need an even number of treated walls');
  if (layout === 'houses' && (treated % wallsPerHouse !== 0 || untreated % wallsPerHouse !== 0))
    throw new RangeError(`houses of ${wallsPerHouse} walls cannot make ${treated} and ${untreated} walls`);
}
