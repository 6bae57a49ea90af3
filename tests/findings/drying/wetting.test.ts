import { describe, expect, it } from 'vitest';
import { sharpFront } from '../../../src/drying/index.js';
import {
  assumedMoistureBehindFront,
  moistureBehindFrontOf,
} from '../../../src/findings/drying/moisture-behind-front.js';
import { wettingJson } from '../../../src/findings/drying/wetting-json.js';
import { bentBelow, wettingOfTrial } from '../../../src/findings/drying/wetting-of-trial.js';
import type { SensorAtHeight } from '../../../src/findings/drying/wetting-part.js';
import { MoistureError, type MoistureReading } from '../../../src/moisture/index.js';
import type { Opinion } from '../../../src/opinion/opinion.js';
import { addDays } from '../../../src/plain/days.js';
import { wettingSection } from '../../../src/report/sections/wetting-section.js';
import { normalDraws, randomStream } from '../../../src/statistics/index.js';
import type { Core, Trial, Wall } from '../../../src/trial/index.js';
import { expectRelative } from '../../helpers/expect-relative.js';
import { madeTrial, soundProtocol } from '../../helpers/made-trial.js';

const origin = { file: 'cores.csv', row: 2 };
const dayAt = (time_d: number) => addDays('2024-03-01', time_d);
const heights = [50, 100, 150, 200, 250, 300, 350, 400, 450, 500, 550, 600, 650];

/** One wall, 225 mm with S = 1 and a fifth of water, its foot wetted on day 10 and read by plugs every day. */
function wetted(evaporation_mm_min: number, wall: Partial<Wall> = {}, cores: readonly Core[] = []) {
  const made = madeTrial([{ wall: 'A', arm: 'sham' }]);
  const trial: Trial = {
    ...made,
    protocol: { ...soundProtocol, instruments: [{ instrument: 'plug', kind: 'embedded-sensor' }] },
    walls: made.walls.map(({ treatedOn: _, ...each }) => ({ ...each, thickness_mm: 225, ...wall })),
    stations: heights.map((height_mm) => ({ station: `up-${height_mm}`, wall: 'A', height_mm, origin })),
    cores,
  };
  const { heightAt } = sharpFront({ sorptivity: 1, moistureBehindFront: 0.2, thickness_mm: 225, evaporation_mm_min });
  const draws = normalDraws(randomStream(47), heights.length * 80);
  const readings = heights.flatMap((height_mm, k) =>
    Array.from({ length: 80 }, (_, day): MoistureReading => {
      const isWet = day + 0.5 > 10 && heightAt(day + 0.5 - 10) > height_mm;
      const value = { kind: 'measured' as const, value: (isWet ? 70 : 12) + draws[80 * k + day]! };
      return { day: dayAt(day), wall: 'A', station: `up-${height_mm}`, instrument: 'plug', value, origin };
    }),
  );
  const wetting = wettingOfTrial(trial, readings);
  if (wetting?.kind !== 'shown') throw new Error(wetting?.reason.code ?? 'no sensors');
  const front = wetting.walls[0]?.front;
  if (front === undefined) throw new Error('no front');
  const words = JSON.stringify(wettingSection({ wetting, protocol: trial.protocol } as Opinion));
  return { front, words, json: wettingJson(wetting) };
}

const core = (day: number, station: string, wet_g: number): Core => ({
  ...{ date: dayAt(day), wall: 'A', station, container_g: 0, wet_g, dry_g: 100, origin },
});

describe('wettingOfTrial(trial, readings) of a wall that evaporates 1.44 mm a day while water rises (sharp-front check table)', () => {
  const { front, words, json } = wetted(0.001);

  it('finds the bend, sorptivity 1, rest at 750 mm and the evaporation, where root time says less than 0.85', () => {
    expect(front.rootTime?.isBent).toBe(true);
    expect(front.rootTime?.curvature).toBeGreaterThan(0);
    expect(front.sorptivity.interval.upper).toBeLessThan(0.85);
    const { evaporating } = front;
    expect(evaporating?.sorptivity.interval.lower).toBeLessThan(1);
    expect(evaporating?.sorptivity.interval.upper).toBeGreaterThan(1);
    expectRelative(evaporating?.rest?.height_mm, 750, 0.02);
    expectRelative(evaporating?.evaporation_mm_d, 1.44, 0.15);
  });

  it('sets both models beside each other in the report and in opinion.json', () => {
    expect(words).toContain('sharp front with evaporation');
    expect(words).toContain('fell behind the root of time');
    const [wall] = 'walls' in json ? (json.walls ?? []) : [];
    expect(wall?.front).toMatchObject({
      moistureFrom: 'assumed',
      moistureBehindFront: 0.2,
      rootTime: { isBent: true },
    });
    expect(wall?.front?.withEvaporation?.sorptivity_mm_min05).toBe(front.evaporating?.sorptivity.sorptivity);
  });

  it('calls a front bent below p = 0.05 (our convention)', () => {
    expect(bentBelow).toBe(0.05);
    expect(front.rootTime?.isBent).toBe((front.rootTime?.pValue ?? 1) < bentBelow);
  });

  it('gives no evaporation without a thickness', () => {
    const { thickness_mm, ...bare } = { thickness_mm: 0 };
    expect(wetted(0.001, { ...bare, thickness_mm }).front.evaporating?.evaporation_mm_d).toBeUndefined();
  });

  it('calls the front straight where hardly anything evaporates', () => {
    const plain = wetted(0.000_001);
    expect(plain.front.rootTime?.isBent).toBe(false);
    expect(plain.words).toContain('do not depart from the root of time');
    expect(plain.front.sorptivity.interval.upper).toBeGreaterThan(0.95);
  });

  it('takes the water behind the front from cores drilled behind it: 10, 11 and 12 % by mass of 1800 kg/m³ are 19.8 % by volume', () => {
    const cores = [core(40, 'up-50', 110), core(40, 'up-100', 112), core(41, 'up-50', 111)];
    const { front: measured, words: told } = wetted(0.001, { dryDensity_kg_m3: 1800 }, cores);
    const { value, ...moisture } = measured.moistureBehindFront;
    // 0.11 × 1800/998.2, the density of water at 20 °C.
    expectRelative(value, 0.198_357, 1e-5);
    expect(moisture).toMatchObject({ from: 'cores', cores: 3 });
    expectRelative(measured.sorptivity.sorptivity, measured.speed * value, 1e-12);
    const width = measured.sorptivity.interval.upper / measured.sorptivity.sorptivity;
    expect(width).toBeGreaterThan(measured.interval.upper / measured.speed);
    expect(told).toContain('3 cores');
  });
});

describe('moistureBehindFrontOf(trial, wall, sensors)', () => {
  const sensors: readonly SensorAtHeight[] = [
    { station: 'up-100', height_mm: 100, kind: 'arrived', time_d: 12, lower_d: 11, upper_d: 13 },
    { station: 'up-300', height_mm: 300, kind: 'arrived', time_d: 20, lower_d: 19, upper_d: 21 },
    { station: 'up-500', height_mm: 500, kind: 'not-arrived', reason: { code: 'sensor-without-step' } },
  ];
  const made = madeTrial([{ wall: 'A', arm: 'sham' }]);
  const of = (cores: readonly Core[], wall: Partial<Wall> = { dryDensity_kg_m3: 1800 }, massStep_g = 0) =>
    moistureBehindFrontOf(
      {
        ...made,
        source: { ...made.source, massStep_g },
        walls: made.walls.map(({ treatedOn: _, ...each }) => ({ ...each, ...wall })),
        stations: [100, 300, 500].map((height_mm) => ({ station: `up-${height_mm}`, wall: 'A', height_mm, origin })),
        cores,
      },
      'A',
      { firstDay: dayAt(0), sensors },
    );
  const sound = [core(20, 'up-300', 110), core(12, 'up-100', 112), core(25, 'up-100', 111)];

  it('is assumed at 20 % of the volume (common practice) unless three cores lie behind the front', () => {
    expect(assumedMoistureBehindFront).toBe(0.2);
    expect(of(sound)).toMatchObject({ from: 'cores', cores: 3 });
    expect(of(sound.slice(1))).toEqual({ from: 'assumed', value: 0.2 });
    expect(of(sound, {})).toEqual({ from: 'assumed', value: 0.2 });
  });

  it('takes a core that the balance shows a little lighter wet than dry, as reading a folder does, and refuses one beyond its noise', () => {
    const light = [core(20, 'up-300', 99.99), ...sound, ...sound, ...sound];
    expect(of(light, undefined, 0.01)).toMatchObject({ from: 'cores', cores: 10 });
    expect(() => of(light, undefined, 0.001)).toThrow(MoistureError);
  });

  it.each([
    ['drilled on the day before the water came', core(19, 'up-300', 110)],
    ['above all sensors that were reached', core(40, 'up-500', 110)],
    ['without a place', core(40, 'elsewhere', 110)],
  ])('counts no core %s', (_, other) => {
    expect(of([...sound, other])).toMatchObject({ cores: 3 });
    expect(of([...sound.slice(1), other])).toMatchObject({ from: 'assumed' });
  });

  it('counts no core from the day of the treatment on', () => {
    const wall = { dryDensity_kg_m3: 1800, treatedOn: dayAt(25) };
    expect(of(sound, wall)).toMatchObject({ from: 'assumed' });
    expect(of(sound, { ...wall, treatedOn: dayAt(26) })).toMatchObject({ from: 'cores' });
  });
});
