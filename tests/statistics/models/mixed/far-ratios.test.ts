import { describe, expect, it } from 'vitest';
import {
  fitMixedModel,
  isStatisticsError,
  type MixedModel,
  normalDraws,
  randomStream,
  satterthwaite,
} from '../../../../src/statistics/index.js';
import { expectRelative } from '../../../helpers/expect-relative.js';

const wall = Array.from({ length: 40 }, (_, row) => Math.floor(row / 5));

/** Eight walls of five readings, every other wall treated. */
function model(response: readonly number[]): MixedModel {
  return {
    response,
    fixed: {
      columns: [
        { name: 'intercept', values: wall.map(() => 1) },
        { name: 'arm', values: wall.map((at) => at % 2) },
      ],
    },
    random: [{ name: 'wall', groups: wall }],
    method: 'reml',
  };
}

/** Restricted likelihood in balanced data is the analysis of variance, where that gives no negative variance. */
function byHand(response: readonly number[]) {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const means = Array.from({ length: 8 }, (_, at) => mean(response.filter((_, row) => wall[row] === at)));
  const arms = [0, 1].map((arm) => mean(means.filter((_, at) => at % 2 === arm)));
  const within = response.reduce((sum, value, row) => sum + (value - means[wall[row]!]!) ** 2, 0) / 32;
  const between = (5 * means.reduce((sum, value, at) => sum + (value - arms[at % 2]!) ** 2, 0)) / 6;
  return {
    residual: Math.sqrt(within),
    wall: Math.sqrt(Math.max(0, between - within) / 5),
    difference: arms[1]! - arms[0]!,
    standardError: Math.sqrt(between / 10),
  };
}

const responseOf = (ratio: number, stream: number): number[] => {
  const [walls, errors] = [0, 1].map((at) => normalDraws(randomStream(20240605, 2 * stream + at), 40));
  return wall.map((at, row) => 10 + ratio * walls![at]! + errors![row]!);
};

function refusalOf(response: readonly number[]) {
  try {
    fitMixedModel(model(response));
  } catch (error) {
    if (isStatisticsError(error)) return error;
    throw error;
  }
  return undefined;
}

describe('fitMixedModel where walls differ far more than repeats', () => {
  it('gives the analysis of variance worked by hand: 240 trials, ratios of 0.3 to 30,000', () => {
    let compared = 0;
    for (let trial = 0; trial < 240; trial++) {
      const ratio = 0.3 * 1e5 ** (trial / 239);
      const response = responseOf(ratio, trial);
      const hand = byHand(response);
      const fit = fitMixedModel(model(response));
      if (!(hand.wall > 0)) continue;
      compared += 1;
      // Cross-products hold the square of the ratio beside the residual, and doubles 16 digits of both.
      const digits = 1e-9 + 1e-14 * ratio ** 2;
      expectRelative(fit.random[0]?.standardDeviations[0], hand.wall, digits, `wall of trial ${trial}`);
      expect(fit.residual.kind === 'equal' ? fit.residual.standardDeviation / hand.residual - 1 : 1).toBeLessThan(
        digits,
      );
      expectRelative(
        fit.coefficients[1]?.standardError,
        hand.standardError,
        digits,
        `standard error of trial ${trial}`,
      );
      expect(Math.abs(fit.coefficients[1]!.estimate - hand.difference) / hand.standardError).toBeLessThan(digits);
      expect(fit.optimiser.evaluations).toBeLessThan(60);
      if (trial % 8 !== 0) continue;
      // Six degrees of freedom between walls, by derivatives that lose half of what is left.
      const { degreesOfFreedom } = satterthwaite(fit, { arm: 1 });
      expectRelative(degreesOfFreedom, 6, 1e-6 + 2e-7 * ratio, `degrees of freedom of trial ${trial}`);
    }
    expect(compared).toBeGreaterThan(200);
  });

  it('says of copied readings that repeats do not vary, and of nearly copied ones', () => {
    for (const response of [wall.map((at) => [3.1, 4.2, 2.2, 5.6, 3.3, 4.9, 6.1, 2.7][at]!), responseOf(1e7, 1)]) {
      const error = refusalOf(response);
      expect(error?.fault).toBe('no-variation');
      expect(error?.message).toContain('needs repeats that vary');
    }
    expect(refusalOf(responseOf(5e4, 1))).toBeUndefined();
  });
});
