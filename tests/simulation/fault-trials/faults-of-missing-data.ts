import type { Trial } from '../../../src/trial/index.js';
import { MARGIN } from './base.js';
import { isTreated, meansOfStationsAfter, meansOfWalls, moved, noted, type Taken, without } from './change-trial.js';
import { type Fault, walls } from './fault.js';

const domain = 'missing data';

/** Names of the walls of the treated arm, the wettest after the treatment first. */
function wettestTreatedAfter(trial: Trial): readonly string[] {
  const after = meansOfWalls(trial, 'after');
  const names = trial.walls.flatMap((wall) => (isTreated(trial, wall) ? wall.wall : []));
  return names.sort((one, other) => (after.get(other) ?? 0) - (after.get(one) ?? 0));
}

/** In every treated wall the three of six stations that were wettest after the treatment are lost then. */
function wettestStationsLost(trial: Trial): Trial {
  const after = meansOfStationsAfter(trial);
  const lost = new Set(
    trial.walls
      .filter((wall) => isTreated(trial, wall))
      .flatMap(({ wall }) =>
        [...after]
          .filter(([station]) => station.startsWith(`${wall}-`))
          .sort(([, one], [, other]) => other - one)
          .slice(0, 3)
          .map(([station]) => station),
      ),
  );
  return without(trial, ({ isAfter, station }) => isAfter && lost.has(station.station));
}

/** Part of every wall gets wetter, and in treated walls it is not read again. */
function partLost(trial: Trial, isPart: (taken: Taken) => boolean, wetter: number): Trial {
  const rained = moved(trial, (taken) => (taken.isAfter && isPart(taken) ? wetter : 0));
  return without(rained, (taken) => taken.isTreated && taken.isAfter && isPart(taken));
}

/** Cores destroy their places, and the laboratory numbers on. */
function renamedAfter(trial: Trial): Trial {
  const newName = (station: string) => `${station}b`;
  const stations = trial.stations.flatMap((station) => [station, { ...station, station: newName(station.station) }]);
  const renamed = noted(trial, ({ isAfter, station }) => (isAfter ? { station: newName(station.station) } : {}));
  return { ...renamed, stations };
}

/** Readings below the limit of the meter are noted as such. */
function belowDetection(trial: Trial): Trial {
  const values = trial.readings.flatMap(({ value }) => (value.kind === 'measured' ? value.value : []));
  const limit = Math.round([...values].sort((one, other) => one - other)[Math.floor(values.length / 4)] ?? 0);
  return {
    ...trial,
    readings: trial.readings.map((reading) =>
      reading.value.kind === 'measured' && reading.value.value < limit
        ? { ...reading, value: { kind: 'below-detection', limit } }
        : reading,
    ),
  };
}

/** The log of half of the treated walls' sensors ends with the tenth day of the after month. */
function sensorsFallSilent(trial: Trial): Trial {
  const silent = new Set(
    trial.stations.flatMap(({ station, height_mm = 0 }, at) =>
      trial.walls.some((wall) => wall.wall === station.slice(0, 3) && isTreated(trial, wall)) &&
      (height_mm < 500 || at % 2 === 0)
        ? station
        : [],
    ),
  );
  const isLost = (station: string, day: string) => silent.has(station) && day > '2025-03-10';
  const { sensorLog } = trial;
  if (sensorLog === undefined) throw new Error('the sound trial has a log');
  return {
    ...without(trial, ({ station, day }) => isLost(station.station, day)),
    sensorLog: {
      ...sensorLog,
      sensors: sensorLog.sensors.map((sensor) => {
        const days = sensor.days.filter(({ day }) => !isLost(sensor.sensor.slice(2), day));
        return { ...sensor, days, readings: 24 * days.length };
      }),
    },
  };
}

export const faultsOfMissingData: readonly Fault[] = [
  {
    ...{ name: 'no-before-readings', domain, codes: ['no-before-readings'], in: walls(), changes: ['cores'] },
    planted: 'nothing read before the treatment',
    plant: (trial) => without(trial, ({ isAfter }) => !isAfter),
  },
  {
    ...{ name: 'no-after-readings', domain, codes: ['no-after-readings'], in: walls(), changes: ['cores'] },
    planted: 'nothing read after it',
    plant: (trial) => without(trial, ({ isAfter }) => isAfter),
  },
  {
    ...{ name: 'walls-left-out', domain, codes: ['walls-left-out'], in: walls(), changes: ['cores'] },
    planted: 'the three treated walls that were wettest after the treatment are not read then',
    plant: (trial) => {
      const lost = new Set(wettestTreatedAfter(trial).slice(0, 3));
      return without(trial, ({ isAfter, wall }) => isAfter && lost.has(wall.wall));
    },
  },
  {
    ...{ name: 'wettest-stations-lost', domain, codes: ['stations-lost'], in: walls(), changes: ['cores'] },
    planted: 'the wettest three of six stations of each treated wall lost after the treatment',
    plant: wettestStationsLost,
  },
  {
    ...{ name: 'height-lost', domain, codes: ['stations-lost'], in: walls(), changes: ['cores'] },
    planted: 'the highest third of all walls gets wetter by 6, and is not read again in treated walls',
    plant: (trial) => partLost(trial, ({ station }) => station.height_mm === 1200, 6),
  },
  {
    ...{ name: 'depth-lost', domain, codes: ['stations-lost'], in: walls(), changes: ['cores'] },
    planted: 'the outer half of all walls gets wetter by 4, and is not read again in treated walls',
    plant: (trial) => partLost(trial, ({ station }) => station.depth_mm === 60, 2 * MARGIN),
  },
  {
    ...{ name: 'stations-renamed', domain, codes: ['stations-renamed'], in: walls({ effect: -2 * MARGIN }) },
    planted: 'every station under a new name after the treatment',
    changes: ['stations', 'cores.station'],
    plant: renamedAfter,
  },
  {
    ...{ name: 'readings-below-detection', domain, codes: ['readings-below-detection'] },
    in: walls({ outcome: 'direct-meter', effect: -2 * MARGIN }),
    planted: 'the driest quarter of the readings below what the meter can tell',
    changes: ['readings.value.kind', 'readings.value.limit', 'readings.value.value'],
    plant: belowDetection,
  },
  {
    ...{ name: 'sensor-days-missing', domain, codes: ['sensor-days-missing'] },
    in: walls({ outcome: 'embedded-sensors' }),
    planted: 'two thirds of the sensors of treated walls silent from the tenth day on, after the treatment',
    changes: ['readings', 'sensorLog.sensors.days', 'sensorLog.sensors.readings'],
    plant: sensorsFallSilent,
  },
];
