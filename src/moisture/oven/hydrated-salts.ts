import type { Source } from '../source-mark.js';

/** A salt that holds water in its crystals, which the oven drives out although it was never moisture. */
export interface HydratedSalt {
  readonly name: string;
  /** g/mol, hydrated. */
  readonly molarMass: number;
  /** Molecules of water in a formula unit. */
  readonly water: number;
  /** Above this the crystal water may leave, °C. */
  readonly stableUpTo_c: number;
  readonly source: Source;
}

/** g/mol. */
export const molarMassOfWater = 18.015;

export const hydratedSalts = {
  gypsum: {
    name: 'gypsum (calcium sulfate dihydrate)',
    molarMass: 172.17,
    water: 2,
    stableUpTo_c: 42,
    source: { document: 'ISO 12570 (40 ± 2 °C where crystal water may leave)', mark: 'from memory' },
  },
  epsomite: {
    name: 'epsomite (magnesium sulfate heptahydrate)',
    molarMass: 246.47,
    water: 7,
    stableUpTo_c: 25,
    source: { document: 'chemistry handbooks; loses water early in dry air', mark: 'from memory' },
  },
  mirabilite: {
    name: 'mirabilite (sodium sulfate decahydrate)',
    molarMass: 322.19,
    water: 10,
    stableUpTo_c: 25,
    source: {
      document: 'chemistry handbooks; turns to thenardite above 32 °C, and below in dry air',
      mark: 'from memory',
    },
  },
} as const satisfies Readonly<Record<string, HydratedSalt>>;

export type HydratedSaltName = keyof typeof hydratedSalts;
