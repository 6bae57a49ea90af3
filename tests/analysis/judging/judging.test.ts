import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Answer, Estimate, SurrogateAudit } from '../../../src/analysis/index.js';
import { formOpinion, type Opinion, readTrial, renderOpinion, type Trial } from '../../../src/index.js';
import type { Judging, Threat } from '../../../src/opinion/judging/judging.js';
import { plausibilityLedger } from '../../../src/opinion/judging/voltage-ledger.js';
import { welch } from '../../../src/statistics/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

const changes = { treated: [-4.1, -3.6, -4.4, -3.9, -4.2, -3.7], untreated: [-0.2, 0.3, -0.4, 0.1, -0.1, 0.2] };
const walls = wallsWithChanges(changes.treated, changes.untreated);
const sound = madeTrial(walls);

function judged(trial: Trial): Judging {
  const { judging } = formOpinion(trial);
  if (judging === undefined) throw new Error('no judging');
  return judging;
}

function estimated(answer: Answer | undefined): Estimate {
  if (answer?.kind !== 'estimated') throw new Error(JSON.stringify(answer));
  return answer.estimate;
}

function named(answers: readonly Answer[], id: string): Answer | undefined {
  return answers.find((answer) => (answer.kind === 'estimated' ? answer.estimate.id : answer.notEstimated.id) === id);
}

function threat(judging: Judging, code: string): Threat {
  const found = judging.threats.find((one) => one.code === code);
  if (found === undefined) throw new Error(`no threat ${code}`);
  return found;
}

const dataset = async (name: string): Promise<Opinion> =>
  formOpinion(await readTrial(join(import.meta.dirname, '..', '..', '..', 'datasets', name)));

describe('a trial whose effect vanishes among blind readings', () => {
  let judging: Judging;
  beforeAll(async () => {
    judging = (await dataset('who-read-the-meter')).judging as Judging;
  });

  it('readingsByKnowledge: nothing among blind, all of it among knowing readings, the planted 14 points between them', () => {
    const { answers, contrast, counts, biasToZero } = judging.knowledge;
    expect(counts).toEqual({ no: 120, yes: 120, unsure: 0, unrecorded: 0 });
    const by = (knew: string) => estimated(answers.find((one) => one.knew === knew)?.answer);
    expect(by('no').pValue).toBeGreaterThan(0.05);
    expect(by('yes').interval?.upper).toBeLessThan(-5);
    const between = estimated(contrast).interval;
    expect(between?.lower).toBeLessThan(-14 + 2);
    expect(between?.upper).toBeGreaterThan(-14);
    // Half of the after readings know, so each would have to be off by twice the limit.
    const primary = (threat(judging, 'arms-guessed').turn.match(/[\d.]+/) ?? [])[0];
    expect(Math.abs(biasToZero ?? 0)).toBeCloseTo(2 * Number(primary), 1);
  });

  it('blindingByRole: forty notes by two readers, more right than a coin makes, and a threat that warns', () => {
    const [readers] = judging.blinding;
    expect(readers).toMatchObject({ role: 'reader', people: 2, late: 0 });
    expect(readers?.pValue).toBeLessThan(0.001);
    expect(threat(judging, 'arms-guessed').outcome).toBe('warns');
    expect(threat(judging, 'readers-knew')).toMatchObject({ outcome: 'warns', direction: 'towards the claim' });
    expect(threat(judging, 'one-unit').turn).toContain('Without reader Keen the interval reaches zero');
  });
});

describe('a trial where the voltage turns in every arm', () => {
  let opinion: Opinion;
  let audit: SurrogateAudit;
  beforeAll(async () => {
    opinion = await dataset('voltage-turns-everywhere');
    audit = opinion.judging?.standIns[0]?.audit as SurrogateAudit;
  });

  it('surrogateAudit: both arms move by the planted 110 mV, the voltage foretells nothing, and the verdict stays', () => {
    expect(audit.when).toBe('before the moisture');
    for (const arm of audit.arms) {
      expect(arm.turned).toBeGreaterThan(arm.walls / 2);
      expect(arm.interval?.lower).toBeGreaterThan(80);
      expect(arm.interval?.upper).toBeLessThan(130);
    }
    const slope = estimated(audit.prediction).interval;
    expect((slope?.lower ?? 1) * (slope?.upper ?? 1)).toBeLessThan(0);
    expect(audit.shareExplained.kind).toBe('not-estimated');
    expect(opinion.verdict.code).toBe('no-worthwhile-effect');
  });

  it('the audit is refused where the plan does not say how the leads stood', async () => {
    const trial = await readTrial(join(import.meta.dirname, '..', '..', '..', 'datasets', 'voltage-turns-everywhere'));
    const instruments = trial.protocol.instruments.map(({ polarity: _, ...rest }) => rest);
    const { standIns } = judged({ ...trial, protocol: { ...trial.protocol, instruments } });
    expect(standIns[0]?.audit).toMatch(/polarity/);
  });
});

it('a trial where walls were picked for being wet: the adjusted difference cannot be told from none, and it warns', async () => {
  const { judging } = await dataset('picked-for-being-wet');
  // mean 7, sd 2.97, cutoff 9: the planted reliability is 2.5^2 / 2.97^2 = 0.709; four walls tell it roughly.
  expect(judging?.fall).toMatchObject({ visits: 1 });
  expect(threat(judging as Judging, 'picked-wettest').outcome).toBe('warns');
  expect(threat(judging as Judging, 'baseline-difference')).toMatchObject({
    outcome: 'warns',
    direction: 'towards the claim',
  });
  expect(judging?.confounding?.forLimit).toBeGreaterThan(1);
});

describe('a sound trial of six and six walls', () => {
  const judging = judged(sound);

  it('leaveOneOut: Welch without each wall in turn', () => {
    expect(judging.leaveOneOut.filter(({ of }) => of === 'wall')).toHaveLength(12);
    const without = estimated(judging.leaveOneOut.find(({ left }) => left === 'T1')?.answer);
    const expected = welch(changes.treated.slice(1), changes.untreated);
    expect(without.estimate).toBeCloseTo(expected.estimate, 12);
    expect(without.interval?.upper).toBeCloseTo(expected.interval.upper, 12);
  });

  it('says in plain words why it cannot tell: one reader, all readings blind, no day to spare before', () => {
    expect(judging.leaveOneOut.some(({ of }) => of === 'reader')).toBe(false);
    expect(threat(judging, 'readers-knew').inference).toMatch(/All after readings are noted as blind/);
    expect(threat(judging, 'placebo-dates')).toMatchObject({
      outcome: 'open',
      fact: expect.stringContaining('fewer than two days'),
    });
    expect(threat(judging, 'arms-guessed').fact).toBe('Nobody was asked what they believed.');
    const knowing = judged({ ...sound, readings: sound.readings.map((one) => ({ ...one, knewArm: 'yes' as const })) });
    expect(threat(knowing, 'readers-knew').inference).toMatch(/nothing blind to compare/);
  });

  it('missingWalls: bounds from the changes seen, and the shift of one lost treated wall that brings the limit to zero', () => {
    const lost = walls.map((wall) => (wall.wall === 'T6' ? { wall: 'T6', arm: 'treated', before: 9.25 } : wall));
    const { missing } = judged(madeTrial(lost));
    const [x, y] = [changes.treated.slice(0, 5), changes.untreated];
    const limit = welch(x, y).interval.upper;
    expect(missing?.missing).toEqual({ treated: 1, untreated: 0, pairs: 0 });
    expect(missing?.shiftToZero).toBeCloseTo(-limit * 6, 10);
    const meanOf = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;
    expect(missing?.bounds.lower).toBeCloseTo(meanOf([...x, -4.4]) - meanOf(y), 12);
    expect(missing?.bounds.upper).toBeCloseTo(meanOf([...x, 0.3]) - meanOf(y), 12);
  });

  it('carryOver: untreated walls beside a treated one against the others, whoever names the neighbour', () => {
    const beside = new Map([
      ['T1', ['U1']],
      ['T2', ['U2', 'T1']],
      ['U3', ['T3']],
    ]);
    const trial = { ...sound, walls: sound.walls.map((one) => ({ ...one, neighbours: beside.get(one.wall) ?? [] })) };
    const found = estimated(named(judged(trial).nothing, 'carry-over'));
    const expected = welch(changes.untreated.slice(0, 3), changes.untreated.slice(3));
    expect(found.estimate).toBeCloseTo(expected.estimate, 10);
    expect(threat(judging, 'carry-over').fact).toMatch(/no column neighbours/);
  });

  it('passMark: half less than the untreated walls, with Fieller’s limits and its source', () => {
    const passMark = { reduction_pct: 50, source: 'an agreement of 1 February 2024' };
    const found = estimated(judged({ ...sound, protocol: { ...soundProtocol, passMark } }).passMark);
    const total = (isTreated: boolean) =>
      walls.reduce((sum, wall) => sum + ((wall.arm === 'treated') === isTreated ? (wall.after ?? 0) : 0), 0);
    const ratio = total(true) / total(false);
    expect(found.estimate).toBeCloseTo(100 * (1 - ratio), 10);
    expect(found.interval?.lower).toBeLessThan(found.estimate);
  });

  it('the report names the source of the margin and of the pass mark, and lists every threat with its fact', async () => {
    const passMark = { reduction_pct: 50, source: 'an agreement of 1 February 2024' };
    const trial = { ...sound, protocol: { ...soundProtocol, passMark, marginSource: 'the tender, clause 7' } };
    const { markdown, html, json } = await renderOpinion(formOpinion(trial));
    for (const words of ['the tender, clause 7', 'an agreement of 1 February 2024', 'An effect where none can be'])
      for (const text of [markdown, html]) expect(text).toContain(words);
    expect(JSON.parse(json).judging.threats).toHaveLength(judging.threats.length);
    expect(markdown).not.toMatch(/\bproves?\b/);
  });

  it('secondaryOutcomes: in the plan’s order, Holm beside it, and none tested after one that shows nothing', () => {
    const more = (instrument: string, scale: number) =>
      sound.readings.map((one, row) => ({
        ...one,
        instrument,
        value: {
          kind: 'measured' as const,
          value: scale * (one.value.kind === 'measured' ? one.value.value : 0) + ((row * 7) % 5),
        },
      }));
    const outcome = (instrument: string) => ({ ...soundProtocol.outcome, instrument });
    const protocol = { ...soundProtocol, secondary: [outcome('noise'), outcome('mw')] };
    const found = judged({
      ...sound,
      readings: [...sound.readings, ...more('noise', 0), ...more('mw', 1)],
      protocol,
    }).secondary;
    expect(found.map(({ inSequence }) => inSequence)).toEqual(['not-rejected', 'not-tested']);
    expect(found[1]?.adjustedPValue).toBeCloseTo(2 * (estimated(found[1]?.answer).pValue ?? 0), 12);
  });
});

it('plausibilityLedger: 4.8 mm a day by evaporation, 0.020 and 20 by fields of 0.1 and 100 V/m (computed from the formulas)', () => {
  expect(plausibilityLedger().map(({ flux_mm_per_day }) => flux_mm_per_day.toPrecision(2))).toEqual([
    '4.8',
    '0.020',
    '20',
  ]);
});

it('the committed table of audits: no false alarm beyond its level by more than chance, and planted faults are found', () => {
  const text = readFileSync(join(import.meta.dirname, '..', '..', 'simulation', 'audits.md'), 'utf8');
  const rows = [...text.matchAll(/^\| ([^|]+) \| ([\d.]+) \| ([\d.]+) \|/gm)].map(([, name, alarms, power]) => ({
    name,
    alarms: Number(alarms),
    power: Number(power),
  }));
  expect(rows.length).toBeGreaterThanOrEqual(6);
  // 6,000 trials: four standard errors of 5 % are 1.1 points.
  for (const { name, alarms, power } of rows) {
    expect(alarms, name).toBeLessThan(6.2);
    expect(power, name).toBeGreaterThan(50);
  }
});
