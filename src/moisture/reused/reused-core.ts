/** Dry mass of a core, found by drying it. */
export interface DryMass {
  /** ISO day. */
  readonly day: string;
  /** Net. */
  readonly dry_g: number;
  /** Salt taken up since the dry mass before, from an analysis of the core. Absent where it was not analysed. */
  readonly saltGained_g?: number;
}

/** A core that stays in a sleeve in the wall and is weighed again at each visit. */
export interface ReusedCore {
  readonly core: string;
  /** The first is the dry mass that all visits are measured against; later ones show what became of it. */
  readonly dryMasses: readonly [DryMass, ...DryMass[]];
  /** Net masses by ISO day, in order. */
  readonly weighings: readonly { readonly day: string; readonly mass_g: number }[];
  /** Standard uncertainty of one weighing. Absent where nothing is known of it. */
  readonly weighing_g?: number;
}

/** A visit's moisture, in percent by mass on the dry basis. */
export interface ReusedCoreVisit {
  readonly day: string;
  /** Against the first dry mass, whatever became of it. */
  readonly apparent_pct: number;
  /** Against the dry mass as it was at this visit, where that is known. */
  readonly moisture:
    | {
        readonly kind: 'corrected';
        readonly value_pct: number;
        readonly dry_g: number;
        /** Corrected less apparent. Positive where lost grains had looked like drying. */
        readonly correction_pp: number;
        /** Balance and interpolation together. Absent where nothing is known of the balance. */
        readonly standardUncertainty_pp?: number;
      }
    | { readonly kind: 'not-known'; readonly because: 'no-dry-mass-after' };
}
