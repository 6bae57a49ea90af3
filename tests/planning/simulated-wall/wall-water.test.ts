import { describe, expect, it } from 'vitest';
import { dryingModels, sharpFront } from '../../../src/drying/index.js';
import {
  driedContent,
  frontHeight,
  stepWall,
  type WallBody,
  type WallConditions,
} from '../../../src/planning/simulated-wall/wall-water.js';

const body: WallBody = { thickness_mm: 225, sorptivity: 1, wet: 0.2, critical: 0.08, cell_mm: 25 };
const still: WallConditions = { evaporation_mm_d: 1.44, atRest: 0, supply: 1, sorptivity: 1 };
const cellsOf = (count = 120) => new Float64Array(count);

/** Steps a wall so many days on; gives the water that passed. */
function steps(days: number, changes: Partial<WallConditions>, { cells = cellsOf(), of = body, step = 0.25 } = {}) {
  let [taken, givenOff] = [0, 0];
  for (let day = 0; day < days - 1e-9; day += step) {
    const passed = stepWall(cells, of, { ...still, ...changes }, step);
    taken += passed.taken_l_m;
    givenOff += passed.givenOff_l_m;
  }
  return { cells, taken, givenOff, height: frontHeight(cells, of) };
}

const held = (cells: Float64Array, of = body) =>
  cells.reduce((sum, content) => sum + content * of.cell_mm * of.thickness_mm, 0) / 1000;

describe('a simulated wall', () => {
  // The values of the sharp-front theory for these walls (computed by hand from its formula): 524.4, 750.0, 1118.0, 530.3, 1060.7 mm.
  it.each([
    [110, 0.001, 524.4],
    [225, 0.001, 750],
    [500, 0.001, 1118],
    [225, 0.002, 530.3],
    [225, 0.0005, 1060.7],
  ])('of %d mm, %d mm a minute, comes to the analytic steady height', (thickness_mm, perMinute, expected) => {
    const of = { ...body, thickness_mm };
    const { height } = steps(600, { evaporation_mm_d: 1440 * perMinute }, { of });
    expect(Math.abs(height / expected - 1)).toBeLessThan(0.02);
    const { steadyHeight_mm } = sharpFront({
      ...{ sorptivity: 1, moistureBehindFront: 0.2, thickness_mm, evaporation_mm_min: perMinute },
    });
    expect(Math.abs(height / steadyHeight_mm - 1)).toBeLessThan(0.02);
  });

  it('comes nearer to it with smaller cells', () => {
    const missOf = (cell_mm: number) =>
      Math.abs(steps(600, {}, { of: { ...body, cell_mm }, cells: cellsOf(3000 / cell_mm) }).height - 750);
    expect(missOf(5)).toBeLessThan(missOf(50) / 3);
    expect(missOf(5)).toBeLessThan(4);
  });

  it('without evaporation is wetted as the root of time, S √t / θ', () => {
    for (const days of [1, 7, 30]) {
      const { height } = steps(days, { evaporation_mm_d: 0 });
      expect(height).toBeCloseTo((1 * Math.sqrt(1440 * days)) / 0.2, 0);
    }
  });

  it('rises with evaporation as the analytic front does', () => {
    const front = sharpFront({ sorptivity: 1, moistureBehindFront: 0.2, thickness_mm: 225, evaporation_mm_min: 0.001 });
    for (const days of [1, 7, 30]) {
      const { height } = steps(days, {});
      expect(Math.abs(height / front.heightAt(days) - 1)).toBeLessThan(0.03);
    }
  });

  it('at rest passes the flow of the analytic front, and holds its water', () => {
    const front = sharpFront({ sorptivity: 1, moistureBehindFront: 0.2, thickness_mm: 225, evaporation_mm_min: 0.001 });
    const { cells } = steps(400, {});
    const { taken, givenOff } = steps(10, {}, { cells });
    expect(taken / 10 / front.flow_l_m_d).toBeCloseTo(1, 1.5);
    expect(givenOff).toBeCloseTo(taken, 2);
    expect(held(cells) / front.water_l_m).toBeCloseTo(1, 1.5);
  });

  it('neither makes nor loses water, whatever the step and whatever was done to it', () => {
    const cells = cellsOf();
    let balance = 0;
    const stages: readonly (readonly [number, Partial<WallConditions>, number])[] = [
      [40, {}, 7],
      [100, { supply: 0.1 }, 3.5],
      [30, { sorptivity: 0.5, evaporation_mm_d: 0.3 }, 1],
      [50, { evaporation_mm_d: 3, atRest: 0.02 }, 7],
    ];
    for (const [days, changes, step] of stages) {
      const { taken, givenOff } = steps(days, changes, { cells, step });
      balance += taken - givenOff;
      expect(held(cells)).toBeCloseTo(balance, 6);
    }
  });

  it('cut off from its supply dries in the two stages of the drying models', () => {
    const wetted = 0.2;
    const rate = 1.44 / 225;
    const change_d = (wetted - 0.08) / rate;
    for (const days of [5, change_d, 30, 90]) {
      const expected = dryingModels['two-stage'].moistureAt({ wet: wetted, rate, change_d, dry: 0.01 }, days);
      expect(driedContent(wetted, body, { ...still, atRest: 0.01 }, days)).toBeCloseTo(expected, 12);
      // In many steps as in one.
      const cells = new Float64Array([wetted]);
      steps(days, { supply: 0, atRest: 0.01 }, { cells, step: days / 40 });
      expect(cells[0]).toBeCloseTo(expected, 9);
    }
  });

  it('takes up half the water where a barrier lets a quarter of it rise, as treated tank walls are said to', () => {
    // Uptake at rest goes with the root of the supply. Published for walls in tanks: roughly halved by some silane treatments
    // (Alfano and others 2006, seen as an abstract), the effect visible from about 90 days (Ain Shams Eng. J. 2024, seen as an abstract).
    const { cells } = steps(400, {});
    const untreated = steps(30, {}, { cells }).taken / 30;
    steps(90, { supply: 0.25 }, { cells });
    const treated = steps(30, { supply: 0.25 }, { cells }).taken / 30;
    expect(treated / untreated).toBeGreaterThan(0.4);
    expect(treated / untreated).toBeLessThan(0.55);
    // Litres for a metre of wall and day of the tabled order, 0.7 to 1.6 (computed).
    expect(untreated).toBeGreaterThan(0.7);
    expect(untreated).toBeLessThan(1.6);
  });
});
