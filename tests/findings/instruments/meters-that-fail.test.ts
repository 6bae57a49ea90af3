import { describe, expect, it } from 'vitest';
import type { Reason } from '../../../src/analysis/index.js';
import { formOpinion, type Opinion, readTrial } from '../../../src/index.js';
import { instrumentsSection } from '../../../src/report/sections/instruments-section.js';
import { type Edit, editedFolder, protocol, refusal } from '../../helpers/edit-folder.js';
import { inFolder } from '../../helpers/valid-folder.js';

/** Every wall of one material, so that the meter can be calibrated on all four. */
const ofBrick: Edit = (files) => {
  files['walls.csv'] = String(files['walls.csv']).replaceAll('"brick, lime mortar"', 'brick');
};

/** Changes the meter's readings, row by row; `undefined` takes a row out. */
const meterReads =
  (change: (value: number, row: number) => number | undefined): Edit =>
  (files) => {
    let row = 0;
    const lines = String(files['readings.csv']).split('\n');
    files['readings.csv'] = lines
      .flatMap((line) => {
        const cells = line.split(',');
        if (cells[3] !== 'mw' || !Number.isFinite(Number(cells[4]))) return [line];
        const value = change(Number(cells[4]), row++);
        return value === undefined ? [] : [cells.with(4, String(value)).join(',')];
      })
      .join('\n');
  };

const opinionOn = (...edits: readonly Edit[]) =>
  inFolder(editedFolder(...edits), async (at) => formOpinion(await readTrial(at)));

const meterOf = ({ instruments }: Opinion) => {
  const meter = instruments.find(({ instrument }) => instrument === 'mw');
  if (meter === undefined) throw new Error('no meter');
  return meter;
};

const textOf = (opinion: Opinion) =>
  JSON.stringify(instrumentsSection(opinion)?.blocks.map((block) => (block.kind === 'figure' ? block.caption : block)));

describe('a folder whose meter cannot be calibrated', () => {
  it.each<[string, readonly Edit[], Partial<Reason>]>([
    ['constant readings', [ofBrick, meterReads(() => 40)], { code: 'meter-does-not-vary' }],
    [
      'two readings',
      [ofBrick, meterReads((value, row) => (row < 2 ? value : undefined))],
      { code: 'too-few-pairs', pairs: 2, needed: 3 },
    ],
    [
      'a reversed relation',
      [ofBrick, meterReads((value) => 100 - value)],
      { code: 'reading-runs-other-way', readingRises: 'with-moisture' },
    ],
    ['cores of two walls only in each material', [], { code: 'too-few-pairs', walls: 2, needed: 3 }],
  ])('says so of %s, and gives no percent', async (_, edits, reason) => {
    const opinion = await opinionOn(...edits);
    const { calibrations, answers } = meterOf(opinion);
    expect(calibrations.length).toBeGreaterThan(0);
    for (const { outcome } of calibrations) expect(outcome).toMatchObject({ kind: 'not-computed', reason });
    expect(answers.find(({ scale }) => scale === 'calibrated')?.result).toMatchObject({
      kind: 'not-computed',
      reason: { code: 'not-calibrated', because: reason },
    });
    expect(textOf(opinion)).toContain('it cannot yield percent');
  });

  it('never lets cores of one material speak for another', async () => {
    // The first pair of walls is of brick, with cores and readings; on the second only the meter was used.
    const opinion = await opinionOn((files) => {
      const lines = String(files['cores.csv']).split('\n');
      files['cores.csv'] = lines.filter((line) => !/,w[34],/.test(line)).join('\n');
    });
    const rubble = meterOf(opinion).calibrations.find(({ material }) => material === 'brick, lime mortar');
    expect(rubble?.outcome).toMatchObject({
      reason: { code: 'too-few-pairs', pairs: 0, walls: 0 },
    });
  });
});

describe('a meter that falls where moisture rises', () => {
  // Uneven from row to row, for walls that all change alike are refused.
  const uneven = meterReads((value, row) => value + ((row * row * 3) % 7) / 2);
  const turned = meterReads((value) => Number((100 - value).toFixed(1)));
  const stated = protocol((plan) => {
    const [core, meter] = plan.instruments as Record<string, unknown>[];
    plan.instruments = [core, { ...meter, readingRises: 'against-moisture' }];
  });

  it('is calibrated as its mirror image is, once the protocol says so', async () => {
    const [plain, mirrored] = await Promise.all([
      opinionOn(ofBrick, uneven),
      opinionOn(ofBrick, uneven, turned, stated),
    ]);
    const [one, other] = [meterOf(plain), meterOf(mirrored)];
    const slope = ({ calibrations: [only] }: typeof one) =>
      only?.outcome.kind === 'computed' ? only.outcome.value.calibration.line.slope : Number.NaN;
    expect(slope(other)).toBeCloseTo(-slope(one), 8);
    const estimate = ({ answers }: typeof one) =>
      answers[1]?.result.kind === 'computed' ? answers[1].result.value.estimate : Number.NaN;
    expect(estimate(other)).toBeCloseTo(estimate(one), 8);
    expect(other.tracking).toMatchObject({ kind: 'computed' });
    expect(other.tracking).toEqual(one.tracking);
    expect(textOf(mirrored)).toContain('turned round, for it falls with moisture');
  });

  it('is refused where the word is another or the instrument is no meter', async () => {
    const with_ = (at: number, value: string) =>
      protocol((plan) => {
        const instruments = plan.instruments as Record<string, unknown>[];
        plan.instruments = instruments.map((one, index) => (index === at ? { ...one, readingRises: value } : one));
      });
    expect(await refusal(editedFolder(with_(1, 'downwards')))).toEqual([
      expect.stringMatching(/^protocol\.json.*with-moisture/),
    ]);
    expect(await refusal(editedFolder(with_(0, 'against-moisture')))).toEqual([
      expect.stringContaining('readingRises with kind gravimetric'),
    ]);
  });
});
