import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { InstrumentFacts } from '../../../src/findings/instruments/instrument-facts.js';
import { instrumentsOf } from '../../../src/findings/instruments/instruments-of.js';
import {
  calibrationPairs,
  formOpinion,
  moistureReadings,
  monotoneCalibration,
  type Opinion,
  type Trial,
} from '../../../src/index.js';
import { instrumentsSection } from '../../../src/report/sections/instruments-section.js';
import { opinionJson } from '../../../src/report/writers/opinion-json.js';
import { studentT } from '../../../src/statistics/index.js';
import { bundledOpinion, bundledTrial } from '../../helpers/bundled-opinions.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

const folder = join(import.meta.dirname, '..', '..', '..', 'datasets', 'salty-chapel-walls');

/** All text of the section, whatever blocks it stands in. */
function textOf(opinion: Opinion): string {
  return JSON.stringify(
    instrumentsSection(opinion)?.blocks.map((block) => (block.kind === 'figure' ? block.caption : block)),
  );
}

function named(facts: readonly InstrumentFacts[], name: string): InstrumentFacts {
  const found = facts.find(({ instrument }) => instrument === name);
  if (found === undefined) throw new Error(`no facts of ${name}`);
  return found;
}

const resultOf = (facts: InstrumentFacts, scale: 'as-read' | 'calibrated') => {
  const result = facts.answers.find((answer) => answer.scale === scale)?.result;
  if (result?.kind !== 'computed') throw new Error(`no answer of ${facts.instrument} ${scale}`);
  return result.value;
};

describe('instrumentsOf(trial, readings) on salty-chapel-walls, of which the truth is known', () => {
  let trial: Trial;
  let opinion: Opinion;
  beforeAll(async () => {
    trial = await bundledTrial('salty-chapel-walls');
    opinion = await bundledOpinion('salty-chapel-walls');
  });

  it('counts what each instrument measured', () => {
    const { use } = named(opinion.instruments, 'microwave');
    const rows = readFileSync(join(folder, 'readings.csv'), 'utf8').split('\n');
    const own = rows.filter((row) => row.includes(',microwave,'));
    expect(use.readings).toBe(own.length);
    expect(use.belowDetection).toBe(own.filter((row) => row.includes(',<5,')).length);
    expect(use).toMatchObject({ walls: 20, stations: 60, days: 6, first: '2023-03-13', last: '2024-05-13' });
  });

  it('gives the cores the verdict of the opinion itself', () => {
    const { primary, verdict } = opinion;
    if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
    const { estimate, interval, code } = resultOf(named(opinion.instruments, 'core'), 'as-read');
    expect({ estimate, interval, code }).toEqual({
      estimate: primary.estimate.estimate,
      interval: primary.estimate.interval,
      code: verdict.code,
    });
  });

  it('shows that salts would have moved the verdict by resistance, and that drift alike in both arms would not', () => {
    const resistance = named(opinion.instruments, 'resistance');
    expect(resultOf(resistance, 'as-read').code).toBeUndefined();
    // The planted loss of 12 index points lies in the interval.
    const { interval } = resultOf(resistance, 'as-read');
    expect(interval.lower).toBeLessThan(-12);
    expect(interval.upper).toBeGreaterThan(-12);
    const { estimate, code } = resultOf(resistance, 'calibrated');
    expect(estimate).toBeLessThan(-1.5);
    expect(code).not.toBe(opinion.verdict.code);
    expect(resultOf(named(opinion.instruments, 'microwave'), 'calibrated').code).toBe('no-worthwhile-effect');
  });

  it('finds the planted drift of the microwave meter, and none of the other', () => {
    const [microwave, resistance] = ['microwave', 'resistance'].map((name) => named(opinion.instruments, name).drift);
    if (microwave?.kind !== 'computed' || resistance?.kind !== 'computed') throw new Error('no drift');
    expect(microwave.value.interval.lower).toBeLessThan(-10);
    expect(microwave.value.interval.upper).toBeGreaterThan(-10);
    expect(resistance.value.interval.lower).toBeLessThan(0);
    expect(resistance.value.interval.upper).toBeGreaterThan(0);
  });

  it('widens a calibrated interval by the uncertainty of the slope', () => {
    const resistance = named(opinion.instruments, 'resistance');
    const [read, calibrated] = [resultOf(resistance, 'as-read'), resultOf(resistance, 'calibrated')];
    const width = ({ interval }: typeof read) => (interval.upper - interval.lower) / 2;
    const outcome = resistance.calibrations[0]?.outcome;
    if (outcome?.kind !== 'computed') throw new Error('not calibrated');
    const { slope, uncertainty, degreesOfFreedom = 0 } = outcome.value.calibration.line;
    expect(calibrated.estimate).toBeCloseTo(read.estimate / slope, 10);
    // Ten pairs give 9 degrees of freedom; the two variances add, theirs after Welch and Satterthwaite.
    const own = width(read) / slope / studentT(9).upperQuantile(0.025);
    const ofSlope = Math.abs(calibrated.estimate) * (Math.sqrt(uncertainty.varianceOfSlope) / slope);
    const variance = own ** 2 + ofSlope ** 2;
    const freedom = variance ** 2 / (own ** 4 / 9 + ofSlope ** 4 / degreesOfFreedom);
    expect(width(calibrated)).toBeCloseTo(studentT(freedom).upperQuantile(0.025) * Math.sqrt(variance), 10);
  });

  it('says how many readings stand for moisture outside the cores of the calibration', () => {
    const outcome = named(opinion.instruments, 'microwave').calibrations[0]?.outcome;
    if (outcome?.kind !== 'computed') throw new Error('not calibrated');
    const { line, pairs } = outcome.value.calibration;
    const rows = readFileSync(join(folder, 'readings.csv'), 'utf8').split('\n');
    const values = rows.flatMap((row) => {
      const value = Number(row.split(',')[4]);
      return row.includes(',microwave,') && Number.isFinite(value) ? [(value - line.intercept) / line.slope] : [];
    });
    const moistures = pairs.map(({ moisture }) => moisture);
    const outside = values.filter((one) => one < Math.min(...moistures) || one > Math.max(...moistures)).length;
    expect(outside).toBeGreaterThan(0);
    expect(outcome.value).toMatchObject({ readings: values.length, outside });
    expect(textOf(opinion)).toContain(`and is a guess outside, where ${outside} of ${values.length} readings lie`);
  });

  it('leaves readings below detection out as the answer does', () => {
    const microwave = named(opinion.instruments, 'microwave');
    expect(microwave.belowDetection?.leftOut).toEqual(microwave.answers[0]?.result);
    expect(microwave.belowDetection?.below).toBe(microwave.use.belowDetection);
    expect(named(opinion.instruments, 'core').belowDetection).toBeUndefined();
  });

  it('is calibrated by material: another material on a wall without cores leaves the meter an index there', () => {
    const walls = trial.walls.map((wall, index) => (index < 2 ? { ...wall, material: 'rubble' } : wall));
    const cores = trial.cores.filter(({ wall }) => wall !== 'W01' && wall !== 'W02');
    const changed = { ...trial, walls, cores };
    const { calibrations, answers } = named(instrumentsOf(changed, moistureReadings(changed)), 'microwave');
    expect(calibrations.map(({ material, outcome }) => [material, outcome.kind])).toEqual([
      ['rubble', 'not-computed'],
      ['brick in lime mortar', 'computed'],
    ]);
    expect(answers[1]?.result).toMatchObject({
      kind: 'not-computed',
      reason: { code: 'not-calibrated' },
    });
  });

  it('tells readers apart where several read the same place on the same day and again', () => {
    expect(named(opinion.instruments, 'microwave').readers).toBeUndefined();
    const again = trial.readings.flatMap((reading) => {
      if (reading.instrument !== 'microwave' || reading.value.kind !== 'measured') return [reading];
      const { value } = reading.value;
      const by = (reader: string, added: number) =>
        ({ ...reading, reader, value: { kind: 'measured', value: value + added } }) as const;
      return [by('R1', 0), by('R1', 2), by('R3', 5), by('R3', 7)];
    });
    const changed = formOpinion({ ...trial, readings: again });
    const { readers } = named(changed.instruments, 'microwave');
    // Repeats 2 apart have a variance of 2, means 5 apart one of 12.5 less half of that.
    expect(readers?.repeatability).toBeCloseTo(Math.sqrt(2), 10);
    expect(readers?.reproducibility).toBeCloseTo(Math.sqrt(2 + 12.5 - 1), 10);
    expect(textOf(changed)).toContain('that 2 readers read on the same day and again');
    // Four readings of each place and day give a reading an uncertainty of its own, the balance gives one to each core.
    expect(textOf(changed)).toContain('York’s line');
    expect(textOf(changed)).toContain('the line above is the one used');
    const calibrationOf = (which: Opinion) => JSON.parse(opinionJson(which)).instruments[2].calibrations[0];
    expect(calibrationOf(changed).york.beyondStated).toBeGreaterThan(1.5);
    expect(calibrationOf(opinion).york).toBeNull();
  });

  it('says on the page that an index has no verdict, that the meter moved, and which verdict would differ', () => {
    const text = textOf(opinion);
    expect(text).toContain('none on this scale');
    for (const limit of ['at most three days apart', 'within 100 days'])
      expect(text).toContain(`${limit} (our convention)`);
    expect(text).toContain('The means of the 20 walls by both have a concordance correlation of 0.');
    const { pairs } = calibrationPairs(trial, moistureReadings(trial), { instrument: 'resistance' });
    const curve = monotoneCalibration(pairs).onUnseenWalls.rootMeanSquare.toFixed(2);
    expect(text).toContain(`A curve that is only held to never turn back misses unseen walls by ${curve} % by mass`);
    expect(text).toContain('The instrument itself moved');
    expect(text).toContain(' (another verdict)');
    const estimates = ['core', 'resistance'].map(
      (name) => named(opinion.instruments, name).answers.at(-1)?.result as { value: { estimate: number } },
    );
    const moved = (estimates[0]?.value.estimate ?? 0) - (estimates[1]?.value.estimate ?? 0);
    // The margin is 2.
    const share = Math.round((100 * moved) / 2);
    expect(text).toContain(`the difference would lie ${moved.toFixed(2)} % by mass lower, ${share} % of the margin`);
    expect(text).toContain('the verdict would ","stay “no worthwhile effect”');
    expect(text).toMatch(/Moisture by resistance less moisture by core|Points that lean or fan out/);
    expect(text).toContain('Uncertainty budget of that core');
    expect(text).not.toMatch(/NaN|undefined|proves/);
    const json = JSON.parse(opinionJson(opinion));
    expect(json.instruments.map(({ instrument }: { instrument: string }) => instrument)).toEqual([
      'core',
      'resistance',
      'microwave',
    ]);
    const { value, standardUncertainty, terms } = json.instruments[0].budget;
    expect(value).toBeCloseTo(opinion.instruments[0]?.budget?.value ?? Number.NaN, 9);
    expect(standardUncertainty).toBeCloseTo(opinion.instruments[0]?.budget?.standardUncertainty ?? Number.NaN, 12);
    const squares = terms.map(({ contribution }: { contribution: number }) => contribution ** 2);
    expect(Math.sqrt(squares.reduce((sum: number, one: number) => sum + one, 0))).toBeCloseTo(standardUncertainty, 12);
    expect(json.instruments[1].answers[1].code).toBe(
      resultOf(named(opinion.instruments, 'resistance'), 'calibrated').code,
    );
  });
});

describe('instrumentsSection(opinion) with little to say', () => {
  const walls = wallsWithChanges([-3, -3.4, -2.9, -3.3], [-0.2, 0.1, -0.4, 0.3]);

  it('is short with one instrument', () => {
    const text = textOf(formOpinion(madeTrial(walls)));
    expect(text).not.toContain('If another instrument');
    expect(text).not.toContain('several times over');
  });

  it('takes a meter as the outcome, without cores', () => {
    const outcome = { instrument: 'mw', quantity: 'microwave index', unit: 'index', better: 'lower' } as const;
    const trial = madeTrial(walls, { protocol: { ...soundProtocol, outcome } });
    const readings = trial.readings.map((reading) => ({ ...reading, instrument: 'mw' }));
    const opinion = formOpinion({ ...trial, readings });
    const meter = named(opinion.instruments, 'mw');
    expect(resultOf(meter, 'as-read').code).toBe(opinion.verdict.code);
    expect(textOf(opinion)).toContain('stays an index');
    const alone = { ...soundProtocol, outcome, instruments: [{ instrument: 'mw', kind: 'microwave' as const }] };
    expect(textOf(formOpinion({ ...trial, protocol: alone, readings }))).toContain('It stays an index');
  });
});
