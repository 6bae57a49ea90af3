import type { Trial } from '../../../src/trial/index.js';
import { MARGIN } from './base.js';
import { isTreated, moved, withProtocol } from './change-trial.js';
import { dropStatement } from './drop-statement.js';
import { type Fault, twoWalls, walls } from './fault.js';

const masses = 'cores.wet_g';
const domain = 'choice of the result';

export const faultsOfResult: readonly Fault[] = [
  {
    ...{ name: 'visits-much-alike', domain: 'measurement', codes: ['visits-much-alike'], in: twoWalls() },
    planted: 'two walls whose difference hardly changes from visit to visit (autocorrelation 0.95)',
    changes: ['readings.value.value'],
    plant: (trial, { normal }) => {
      let carried = normal();
      const byDay = new Map<string, number>();
      for (const { date } of trial.readings) {
        if (byDay.has(date)) continue;
        carried = 0.95 * carried + Math.sqrt(1 - 0.95 ** 2) * normal();
        byDay.set(date, 1.5 * carried);
      }
      return moved(trial, (taken) => (taken.isTreated ? (byDay.get(taken.day) ?? 0) : 0));
    },
  },
  {
    ...{ name: 'margin-absent', domain, codes: ['margin-absent'], in: walls() },
    planted: 'no smallest worthwhile difference',
    changes: ['protocol.margin', 'protocol.marginSource'],
    plant: (trial) => {
      const { margin: _, marginSource: __, ...protocol } = trial.protocol;
      return { ...trial, protocol };
    },
  },
  {
    ...{ name: 'plan-undated', domain, codes: ['plan-undated'], in: walls(), changes: ['protocol.plannedOn'] },
    planted: 'the plan bears no date',
    plant: (trial) => dropStatement(trial, 'plan day'),
  },
  {
    ...{ name: 'planned-late', domain, codes: ['planned-late'], in: walls(), changes: ['protocol.plannedOn'] },
    planted: 'the plan is dated after the first reading after the treatment',
    plant: (trial) => withProtocol(trial, { plannedOn: '2025-03-20' }),
  },
  {
    ...{ name: 'funding-not-stated', domain, codes: ['interests-not-stated'], in: walls() },
    planted: 'who paid is left blank',
    changes: ['protocol.disclosures.funding'],
    plant: (trial) => dropStatement(trial, 'funding'),
  },
  {
    ...{ name: 'interests-not-stated', domain, codes: ['interests-not-stated'], in: walls() },
    planted: 'who gains is left blank',
    changes: ['protocol.disclosures.interests'],
    plant: (trial) => dropStatement(trial, 'interests'),
  },
  {
    ...{ name: 'seller-interest', domain, codes: ['seller-interest'], in: walls() },
    planted: 'the seller of the device paid and employs the readers',
    changes: ['protocol.disclosures.funding', 'protocol.disclosures.interests'],
    plant: (trial) =>
      withProtocol(trial, {
        disclosures: {
          funding: 'paid for by the seller of the device',
          interests: 'the seller of the device employs both readers',
        },
      }),
  },
  {
    ...{ name: 'turns-without-one', domain, codes: ['turns-without-one'], in: walls({ effect: -2.5 * MARGIN }) },
    planted: 'one treated wall fell by 9 less than the others',
    changes: [masses],
    plant: (trial) => {
      const wild = trial.walls.find((wall) => isTreated(trial, wall))?.wall;
      return moved(trial, ({ isAfter, wall }) => (isAfter && wall.wall === wild ? 9 : 0));
    },
  },
  {
    ...{
      name: 'turns-among-blind',
      domain,
      codes: ['turns-among-blind'],
      in: walls({ beside: 'second-reader', outcome: 'direct-meter' }),
    },
    planted: 'one of two readers at each station knew and found 6 less in treated walls; the blind one found no effect',
    changes: ['readings.knewArm', 'readings.value.value'],
    plant: (trial) => {
      const shaved = moved(trial, (taken) =>
        taken.isTreated && taken.isAfter && taken.reader === 'R1' ? -3 * MARGIN : 0,
      );
      const isKnown = ({ reader, date }: Trial['readings'][number]) => reader === 'R1' && date >= '2025-01-01';
      const readings = shaved.readings.map((reading) =>
        isKnown(reading) ? { ...reading, knewArm: 'yes' as const } : reading,
      );
      return { ...shaved, readings };
    },
  },
  {
    ...{ name: 'turns-with-choices', domain, codes: ['turns-with-choices'], in: walls(), changes: [masses] },
    planted:
      'treated walls dry by 6 at their foot only, by more at the first visit after the treatment and less at the last',
    plant: (trial) => {
      const fading = new Map([
        ['2025-03-05', 1.8],
        ['2025-04-02', 1],
        ['2025-05-07', 0.2],
      ]);
      return moved(trial, (taken) =>
        taken.isTreated && taken.station.height_mm === 300 ? -3 * MARGIN * (fading.get(taken.day) ?? 0) : 0,
      );
    },
  },
];
