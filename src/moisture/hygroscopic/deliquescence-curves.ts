import type { Source } from '../source-mark.js';

/** Relative humidity over a saturated solution, in percent, between two temperatures. */
export type DeliquescenceCurve = {
  readonly from_c: number;
  readonly to_c: number;
  readonly source: Source;
} & (
  | {
      /** c₀ + c₁t + c₂t² + …, t in °C. */
      readonly kind: 'polynomial';
      readonly coefficients: readonly number[];
    }
  | {
      /** a·exp(b/T), T in kelvin. */
      readonly kind: 'exponential';
      readonly a: number;
      readonly b_k: number;
    }
  | {
      /** Straight lines between points of °C and percent, from the coldest up. */
      readonly kind: 'points';
      readonly points: readonly (readonly [number, number])[];
    }
);

const greenspan = 'Greenspan 1977, J. Res. Natl. Bur. Stand. 81A:89-96';
const readInCode: Source = { document: `${greenspan}, coefficients as public programs quote them`, mark: 'seen' };
const steiger = 'Steiger, Charola and Sterflinger 2014, Weathering and Deterioration, table';

/**
 * The polynomials are those of Greenspan's compilation, or least squares through its table of values every 5 °C, which they meet to 0.005
 * points. A hydrate that changes at a temperature within the range keeps one curve: both hydrates agree there.
 */
export const deliquescenceCurves = {
  'calcium chloride': {
    kind: 'points',
    points: [
      [0, 44.3],
      [10, 39.4],
      [20, 33.3],
      [30, 21.6],
      [40, 18.4],
      [50, 16.3],
    ],
    from_c: 0,
    to_c: 50,
    source: {
      document: `${steiger} as quoted by a public encyclopaedia of salts (six molecules of water to 30 °C, then four, from 45 °C two)`,
      mark: 'seen',
    },
  },
  'magnesium chloride': {
    kind: 'polynomial',
    coefficients: [33.6686, -0.00797397, -0.108988e-2],
    from_c: 0,
    to_c: 50,
    source: readInCode,
  },
  'potassium carbonate': {
    kind: 'polynomial',
    // One public program has the slope with its sign turned; the table rises.
    coefficients: [43.1315, 0.00147523],
    from_c: 0,
    to_c: 30,
    source: readInCode,
  },
  'calcium nitrate': {
    kind: 'points',
    points: [
      [0, 63.8],
      [10, 58.8],
      [20, 53.1],
      [30, 46.0],
      [40, 35.5],
    ],
    from_c: 0,
    to_c: 40,
    source: { document: `${steiger} as quoted by a public encyclopaedia of salts`, mark: 'seen' },
  },
  'magnesium nitrate': {
    kind: 'polynomial',
    coefficients: [60.3459, -0.298164],
    from_c: 0,
    to_c: 50,
    source: { document: `${greenspan}, line through its table`, mark: 'from memory' },
  },
  'ammonium nitrate': {
    kind: 'exponential',
    a: 3.54,
    b_k: 853,
    from_c: 10,
    to_c: 40,
    source: { document: 'Wexler, Constant humidity solutions, handbook table', mark: 'seen' },
  },
  'sodium nitrate': {
    kind: 'polynomial',
    coefficients: [79.5457, -0.189791, -0.135584e-2, 0.1899e-4],
    from_c: 5,
    to_c: 50,
    source: { document: `${greenspan}, cubic through its table`, mark: 'from memory' },
  },
  'sodium chloride': {
    kind: 'polynomial',
    coefficients: [75.5164, 0.0398321, -0.265459e-2, 0.2848e-4],
    from_c: 0,
    to_c: 50,
    source: readInCode,
  },
  'ammonium sulfate': {
    kind: 'polynomial',
    coefficients: [82.7732, -0.0714727],
    from_c: 0,
    to_c: 50,
    source: { document: `${greenspan}, line through its table`, mark: 'from memory' },
  },
  'potassium chloride': {
    kind: 'polynomial',
    coefficients: [88.619, -0.19334, 0.899706e-3],
    from_c: 0,
    to_c: 50,
    source: readInCode,
  },
  'magnesium sulfate': {
    kind: 'polynomial',
    // One value at 20 °C. Published ones at 10, 25 and 30 °C are up to six points from what its solubility gives: nothing is claimed there.
    coefficients: [91.3],
    from_c: 18,
    to_c: 22,
    source: {
      document: `${steiger} as quoted by a public encyclopaedia of salts (seven molecules of water, 20 °C)`,
      mark: 'seen',
    },
  },
  'sodium sulfate': {
    kind: 'points',
    points: [
      [0, 98.7],
      [10, 97.7],
      [20, 95.6],
      [25, 93.6],
      [30, 90.3],
      [32.4, 87.7],
      [40, 88.0],
      [50, 88.6],
    ],
    from_c: 0,
    to_c: 50,
    source: {
      document:
        'computed from solubility by Pitzer’s equations; 20 °C as a public encyclopaedia of salts has it (ten molecules of water to 32.4 °C, then none)',
      mark: 'from memory',
    },
  },
  'potassium nitrate': {
    kind: 'polynomial',
    coefficients: [96.3361, 0.0112371, -0.484514e-2],
    from_c: 0,
    to_c: 50,
    source: readInCode,
  },
  'potassium sulfate': {
    kind: 'polynomial',
    coefficients: [98.7792, -0.0590502],
    from_c: 0,
    to_c: 50,
    source: readInCode,
  },
} as const satisfies Readonly<Record<string, DeliquescenceCurve>>;

export type DeliquescentSalt = keyof typeof deliquescenceCurves;
