import { describe, expect, it } from 'vitest';
import { MoistureError, moistureReadings } from '../../src/moisture/index.js';
import type { Core } from '../../src/trial/index.js';
import { madeTrial, soundProtocol } from '../helpers/made-trial.js';

const core: Core = {
  date: '2024-04-10T09:30',
  wall: 'T1',
  station: 'low',
  container_g: 0,
  wet_g: 52.36,
  dry_g: 47.83,
  reader: 'R2',
  knewArm: 'unsure',
  origin: { file: 'cores.csv', row: 2 },
};

function trialOfCores(cores: readonly Core[], unit = '% by mass') {
  const protocol = { ...soundProtocol, outcome: { ...soundProtocol.outcome, unit } };
  const source = { fingerprint: '', files: [], massStep_g: 0.01 };
  return madeTrial([{ wall: 'T1', arm: 'treated' }], { cores, protocol, source });
}

describe('moistureReadings', () => {
  it('makes each core a reading of the gravimetric instrument, with its day, reader and origin', () => {
    const [reading] = moistureReadings(trialOfCores([core]));
    expect(reading).toMatchObject({
      day: '2024-04-10',
      wall: 'T1',
      station: 'low',
      instrument: 'core',
      reader: 'R2',
      knewArm: 'unsure',
      origin: { file: 'cores.csv', row: 2 },
    });
    expect(reading?.value).toEqual({ kind: 'measured', value: expect.closeTo(9.471043, 5) });
    // 0.01 g / √12 a weighing, worked by hand
    expect(reading?.standardUncertainty).toBeCloseTo(0.00894873, 7);
  });

  it('turns a potential that was read with swapped leads, and leaves the others', () => {
    const reading = { date: '2024-04-10', wall: 'T1', station: 'low', instrument: 'mv', origin: core.origin };
    const readings = [
      { ...reading, value: { kind: 'measured' as const, value: 12 }, lead: 'reversed' as const },
      { ...reading, value: { kind: 'measured' as const, value: 12 } },
    ];
    const values = moistureReadings({ ...trialOfCores([]), readings }).map(({ value }) => value);
    expect(values).toEqual([
      { kind: 'measured', value: -12 },
      { kind: 'measured', value: 12 },
    ]);
  });

  it('keeps a core without one of its masses as a missing reading', () => {
    const { dry_g: _, ...undried } = core;
    expect(moistureReadings(trialOfCores([undried]))[0]?.value).toEqual({ kind: 'missing' });
  });

  it('converts to the unit of the outcome: 9.471 % by mass is 0.09471 kg/kg', () => {
    const value = moistureReadings(trialOfCores([core], 'kg/kg'))[0]?.value;
    expect(value).toEqual({ kind: 'measured', value: expect.closeTo(0.09471043, 7) });
  });

  it('refuses a unit that it cannot compute cores in', () => {
    expect(() => moistureReadings(trialOfCores([core], 'kg/m3'))).toThrow(MoistureError);
  });

  it('passes readings of other instruments on as they stand', () => {
    const trial = madeTrial([{ wall: 'T1', arm: 'treated', before: 7 }]);
    expect(moistureReadings(trial)[0]).toMatchObject({ day: '2024-04-10', value: { kind: 'measured', value: 7 } });
  });
});
