import { expect, it } from 'vitest';
import {
  conductivityOfMasonry_s_per_m,
  electroOsmoticPermeability_m2_per_vs,
  faraday_c_per_mol,
  isMoistureError,
  waterByElectrolysis,
  waterMovedByCharge,
} from '../../../src/moisture/index.js';

it('constants: the Faraday constant from e and Avogadro’s number, the ranges as stated', () => {
  expect(faraday_c_per_mol).toBeCloseTo(1.602176634e-19 * 6.02214076e23, 5);
  expect(electroOsmoticPermeability_m2_per_vs).toEqual({ low: 1e-9, high: 1e-8 });
  expect(conductivityOfMasonry_s_per_m).toEqual({ low: 0.001, high: 0.1 });
});

it('waterByElectrolysis by hand: two moles of electrons take a mole of water, 18.015 g', () => {
  expect(waterByElectrolysis(2 * 96485.33212)).toBeCloseTo(0.018015, 9);
  // An ampere-hour takes a third of a gram.
  expect(waterByElectrolysis(3600)).toBeCloseTo(0.00033608, 8);
});

it('waterMovedByCharge by hand: 1 A through 0.01 S/m at 1e-9 m²/(V·s) for an hour moves 0.36 litres', () => {
  expect(waterMovedByCharge(3600, 1e-9, 0.01)).toBeCloseTo(0.36, 12);
});

it('both refuse what is no charge', () => {
  for (const charge of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
    for (const of of [() => waterByElectrolysis(charge), () => waterMovedByCharge(charge, 1e-9, 0.01)]) {
      let caught: unknown;
      try {
        of();
      } catch (error) {
        caught = error;
      }
      expect(isMoistureError(caught)).toBe(true);
    }
  }
});
