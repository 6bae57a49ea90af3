import { describe, expect, it } from 'vitest';
import { copiedNumbers } from '../../../src/analysis/index.js';
import { normalDraws, randomStream } from '../../../src/statistics/index.js';
import type { Core, Trial } from '../../../src/trial/index.js';
import { coreTrial } from '../../helpers/core-trial.js';
import { stationTrial } from '../../helpers/station-trial.js';
import { ofSweep } from '../../helpers/sweep.js';

interface MadeCores {
  /** Number of distinct containers; 0 for net masses. */
  readonly tins?: number;
  readonly step?: number;
  readonly isReused?: boolean;
}

/** 192 cores: 8 walls, 6 stations, 4 visits, with a balance that shows `step`. */
function cores(seed: number, { tins = 30, step = 0.01, isReused = false }: MadeCores = {}): readonly Core[] {
  const draws = normalDraws(randomStream(seed), 600);
  const shown = (value: number) => Math.round(Math.round(value / step) * step * 100) / 100;
  return Array.from({ length: 192 }, (_, at) => {
    const [place, visit] = [at % 48, Math.floor(at / 48)];
    const container_g = tins === 0 ? 0 : shown(12 + 0.13 * ((at * 7) % tins));
    const dry = 40 + 5 * (draws[isReused ? place : at] ?? 0);
    const moisture = Math.max(0.005, 0.09 + 0.03 * (draws[200 + (at % 48)] ?? 0) + 0.01 * (draws[300 + at] ?? 0));
    return {
      date: `202${4 + Math.floor(visit / 2)}-0${4 + (visit % 2)}-01`,
      wall: `W${Math.floor(place / 6)}`,
      station: `s${place}`,
      ...(isReused ? { sample: `c${place}` } : {}),
      ...{ container_g, dry_g: shown(container_g + dry), wet_g: shown(container_g + dry * (1 + moisture)) },
      origin: { file: 'cores.csv', row: at + 2 },
    };
  });
}

/** The masses of the first cores written again for the last ones. */
function copied(list: readonly Core[], count: number): readonly Core[] {
  return list.map((core, at) => {
    const from = list[at - (list.length - count)];
    if (from === undefined) return core;
    const { container_g, wet_g = 0, dry_g = 0 } = from;
    return { ...core, container_g, wet_g, dry_g };
  });
}

/** A rate of alarms of a tenth, and not of a hundredth, shows among twenty as well, in most of six kinds. */
const rounds = ofSweep(100, 20);

const alarmsOf = (rounds: number, trialOf: (seed: number) => Trial) =>
  Array.from({ length: rounds }, (_, seed) => copiedNumbers(trialOf(seed)).isAlarm).filter(Boolean).length;

describe('copiedNumbers, masses of cores', () => {
  it('names the rows of masses written twice', () => {
    const found = copiedNumbers(coreTrial(copied(cores(1), 3)));
    expect(found.isAlarm).toBe(true);
    expect(found.masses?.repeats.map(({ one, other }) => [one.row, other.row]).sort()).toEqual([
      [2, 191],
      [3, 192],
      [4, 193],
    ]);
    expect(found.masses?.expected).toBeLessThan(0.1);
  });

  it('a triple differing in the last digit of one mass is no repeat', () => {
    const almost = copied(cores(1), 3).map((core, at) =>
      at > 188 ? { ...core, wet_g: Math.round((core.wet_g ?? 0) * 100 + 1) / 100 } : core,
    );
    expect(copiedNumbers(coreTrial(almost)).masses?.repeats).toEqual([]);
  });

  it.each([
    ['with containers', {}],
    ['net, three copied', { tins: 0 }],
    ['a balance of 0.1 g, eight copied', { step: 0.1 }],
  ] as const)('finds copies in at least 95 of 100 seeded trials: %s', (name, made) => {
    const count = name.includes('eight') ? 8 : 3;
    expect(alarmsOf(100, (seed) => coreTrial(copied(cores(seed, made), count)))).toBeGreaterThanOrEqual(95);
  });

  it.each([
    ['with containers', {}],
    ['net', { tins: 0 }],
    ['one tin, a balance of 0.1 g', { tins: 1, step: 0.1 }],
    ['net, a balance of 0.5 g', { tins: 0, step: 0.5 }],
    ['cores weighed again', { isReused: true, tins: 0 }],
  ] as const)('measured masses: an alarm in at most 1 %% of some hundred seeded trials: %s', (_, made) => {
    const some = ofSweep(200, 100);
    expect(alarmsOf(some, (seed) => coreTrial(cores(seed, made)))).toBeLessThanOrEqual(some / 100);
  });

  it('does not judge a balance that shows whole grams, nor a single core', () => {
    expect(copiedNumbers(coreTrial(cores(1, { step: 1 }))).masses).toBeUndefined();
    expect(copiedNumbers(coreTrial(cores(1).slice(0, 1))).masses).toBeUndefined();
  });

  it('a core weighed again with the same masses keeps its name and is no copy; another one is', () => {
    const list = cores(2, { isReused: true });
    const again = { ...list[0]!, date: '2025-06-01', origin: { file: 'cores.csv', row: 300 } };
    expect(copiedNumbers(coreTrial([...list, again])).masses?.repeats).toEqual([]);
    expect(copiedNumbers(coreTrial([...list, { ...again, sample: 'other' }])).masses?.repeats).toHaveLength(1);
  });
});

interface Meter {
  /** Step of the display, standard deviation between visits, and values that it cannot pass. */
  readonly step: number;
  readonly noise: number;
  readonly most?: number;
  /** Walls that hardly change between visits. */
  readonly isSteady?: (wall: number) => boolean;
}

/** 8 walls a side, 6 places, 2 visits in each window. */
function meterTrial(seed: number, { step, noise, most = 1000, isSteady = () => false }: Meter): Trial {
  const draws = normalDraws(randomStream(seed), 16 * 6 * 4 + 200);
  let at = 200;
  return stationTrial({
    walls: 8,
    heights: [200, 400, 600, 800, 1000, 1200],
    value: ({ wall, place }) => {
      const level = 60 - 6 * place + 6 * (draws[wall] ?? 0) + 4 * (draws[20 + 6 * wall + place] ?? 0);
      const value = level + (isSteady(wall) ? 0.1 : 1) * noise * (draws[at++] ?? 0);
      return Math.min(most, Math.round(Math.round(value / step) * step * 10) / 10);
    },
  });
}

/** The readings of one visit, or wall, written for another. */
function copyOf(trial: Trial, isFrom: (at: Place) => boolean, isTo: (at: Place) => boolean): Trial {
  const placeOf = ({ wall, date, station }: Trial['readings'][number]): Place => ({
    wall,
    date,
    place: station.split('-')[1] ?? '',
  });
  const from = trial.readings.filter((one) => isFrom(placeOf(one)));
  const readings = trial.readings.map((one) => {
    const { place } = placeOf(one);
    const source = isTo(placeOf(one)) ? from.find((other) => placeOf(other).place === place) : undefined;
    return source === undefined ? one : { ...one, value: source.value };
  });
  return { ...trial, readings };
}

interface Place {
  readonly wall: string;
  readonly date: string;
  readonly place: string;
}

const fine: Meter = { step: 0.1, noise: 4 };
const visitCopied = (trial: Trial) =>
  copyOf(
    trial,
    ({ wall, date }) => wall === 'W2' && date === '2024-04-03',
    ({ wall, date }) => wall === 'W2' && date === '2025-04-01',
  );
const wallCopied = (trial: Trial) =>
  copyOf(
    trial,
    ({ wall, date }) => wall === 'W2' && date === '2025-04-01',
    ({ wall, date }) => wall === 'W6' && date === '2025-04-01',
  );

describe('copiedNumbers, runs of readings', () => {
  it('names the visits and rows of a run written twice, in a wall and between walls', () => {
    const [visit, ...others] = copiedNumbers(visitCopied(meterTrial(1, fine))).runs.found;
    expect(others).toEqual([]);
    expect(visit).toMatchObject({
      between: 'visits',
      one: { wall: 'W2', day: '2024-04-03' },
      other: { wall: 'W2', day: '2025-04-01' },
      places: 6,
      near: 6,
    });
    expect(visit?.equal).toHaveLength(6);
    const [walls] = copiedNumbers(wallCopied(meterTrial(1, fine))).runs.found;
    expect(walls).toMatchObject({ between: 'walls', one: { wall: 'W2' }, other: { wall: 'W6' } });
  });

  it.each([
    ['a visit', visitCopied],
    ['a wall', wallCopied],
  ] as const)(
    'finds %s of six places copied, on a meter of 0.1 and of 0.5, in at least 95 of a hundred seeded trials',
    (_, copy) => {
      const [some, others] = [ofSweep(60, 20), ofSweep(40, 20)];
      expect(alarmsOf(some, (seed) => copy(meterTrial(seed, fine)))).toBeGreaterThanOrEqual(0.95 * some);
      const coarse = { step: 0.5, noise: 6 };
      expect(alarmsOf(others, (seed) => copy(meterTrial(seed, coarse)))).toBeGreaterThanOrEqual(0.95 * others);
    },
  );

  it.each([
    ['fine', fine],
    ['in whole numbers', { step: 1, noise: 4 }],
    ['coarser than its noise', { step: 5, noise: 2 }],
    ['that ends at 50', { step: 1, noise: 1, most: 50 }],
    ['on walls of which a third are steady', { step: 1, noise: 4, isSteady: (wall: number) => wall % 3 === 0 }],
    ['on steady walls', { step: 1, noise: 0.3 }],
  ] as const)(`a meter %s: an alarm in at most 1 %% of ${rounds} seeded trials`, (_, meter) => {
    expect(alarmsOf(rounds, (seed) => meterTrial(700 + seed, meter))).toBeLessThanOrEqual(rounds / 100);
  });

  it('walls with one reading a visit are compared as whole series', () => {
    const series = (seed: number) => {
      const draws = normalDraws(randomStream(seed), 12 * 20);
      let at = 0;
      return stationTrial({ heights: [500], visits: 10, value: () => Math.round(90 + 20 * (draws[at++] ?? 0)) / 10 });
    };
    expect(alarmsOf(ofSweep(50, 25), series)).toBe(0);
    const copy = (trial: Trial) => {
      const from = trial.readings.filter(({ wall }) => wall === 'W1');
      const readings = trial.readings.map((one) => {
        const same = one.wall === 'W3' && one.date > '2025' ? from.find(({ date }) => date === one.date) : undefined;
        return same === undefined ? one : { ...one, value: same.value };
      });
      return { ...trial, readings };
    };
    const [found] = copiedNumbers(copy(series(1))).runs.found;
    expect(found).toMatchObject({ between: 'walls', one: { wall: 'W1' }, other: { wall: 'W3' }, places: 20 });
  });

  describe('where walls have three places', () => {
    const three = (trial: Trial): Trial => ({
      ...trial,
      readings: trial.readings.filter(({ station }) => Number(station.split('-')[1]) < 3),
    });
    const roundCopied = (trial: Trial): Trial => {
      const source = new Map(
        trial.readings.flatMap((one) => (one.date === '2024-04-03' ? [[one.station, one.value] as const] : [])),
      );
      const readings = trial.readings.map((one) =>
        one.date === '2025-04-01' ? { ...one, value: source.get(one.station) ?? one.value } : one,
      );
      return { ...trial, readings };
    };

    it('a round of all walls copied is found', () => {
      const [found] = copiedNumbers(roundCopied(three(meterTrial(1, fine)))).runs.found;
      expect(found).toMatchObject({
        between: 'visits',
        one: { wall: 'all walls', day: '2024-04-03' },
        other: { wall: 'all walls', day: '2025-04-01' },
        places: 48,
      });
      expect(alarmsOf(40, (seed) => roundCopied(three(meterTrial(seed, fine))))).toBe(40);
    });

    it.each([
      ['fine', fine],
      ['coarser than its noise', { step: 5, noise: 2 }],
      ['that ends at 50', { step: 1, noise: 1, most: 50 }],
      ['on steady walls', { step: 1, noise: 0.3 }],
    ] as const)(`a meter %s: an alarm in at most 1 %% of ${rounds} seeded trials`, (_, meter) => {
      expect(alarmsOf(rounds, (seed) => three(meterTrial(700 + seed, meter)))).toBeLessThanOrEqual(rounds / 100);
    });
  });

  it('three equal readings are no run, four are', () => {
    const part = (places: number) =>
      copyOf(
        meterTrial(1, fine),
        ({ wall, date }) => wall === 'W2' && date === '2024-04-03',
        ({ wall, date, place }) => wall === 'W2' && date === '2025-04-01' && Number(place) < places,
      );
    expect(copiedNumbers(part(3)).runs.smallestP).toBe(1);
    expect(copiedNumbers(part(4)).runs.smallestP).toBeLessThan(1);
  });

  it('looks at no sensor log, and at no visit of three places', () => {
    const trial = visitCopied(meterTrial(1, fine));
    const logged = {
      ...trial,
      protocol: { ...trial.protocol, instruments: [{ instrument: 'core', kind: 'embedded-sensor' as const }] },
    };
    expect(copiedNumbers(logged).runs).toEqual({ comparisons: 0, found: [], smallestP: 1 });
    const three = {
      ...trial,
      readings: trial.readings.filter(({ station }) => Number(station.split('-')[1]) < 3 || station.startsWith('W0-')),
    };
    expect(copiedNumbers(three).isAlarm).toBe(false);
  });
});
