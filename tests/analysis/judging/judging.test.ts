import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Answer, Estimate, SurrogateAudit } from '../../../src/analysis/index.js';
import { formOpinion, type Opinion, renderOpinion, type Trial } from '../../../src/index.js';
import { labelOf } from '../../../src/labels/index.js';
import type { Judging } from '../../../src/opinion/judging/judging.js';
import type { Threat } from '../../../src/opinion/threats/threat.js';
import { reportDocument } from '../../../src/report/report-document.js';
import { opinionJson } from '../../../src/report/writers/opinion-json.js';
import { toMarkdown } from '../../../src/report/writers/to-markdown.js';
import { welch } from '../../../src/statistics/index.js';
import { bundledOpinion, bundledTrial } from '../../helpers/bundled-opinions.js';
import { madeTrial, soundProtocol, wallsWithChanges } from '../../helpers/made-trial.js';

const changes = { treated: [-4.1, -3.6, -4.4, -3.9, -4.2, -3.7], untreated: [-0.2, 0.3, -0.4, 0.1, -0.1, 0.2] };
const walls = wallsWithChanges(changes.treated, changes.untreated);
const sound = madeTrial(walls);
const halfLess = {
  ...{ kind: 'reduction' as const, reduction_pct: 50 },
  ...{ source: 'an agreement of 1 February 2024', asMargin: false },
};

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

function threat({ threats }: Pick<Opinion, 'threats'>, code: string): Threat {
  const found = threats.find((one) => one.code === code);
  if (found === undefined) throw new Error(`no threat ${code}`);
  return found;
}

describe('a trial whose effect vanishes among blind readings', () => {
  let judging: Judging;
  let opinion: Opinion;
  beforeAll(async () => {
    opinion = await bundledOpinion('who-read-the-meter');
    judging = opinion.judging as Judging;
  });

  it('readingsByKnowledge: nothing among blind, all of it among knowing readings, the planted 14 points between them', () => {
    const { answers, contrast, counts, movesBy } = judging.knowledge;
    expect(counts).toEqual({ no: 120, yes: 120, unsure: 0, unrecorded: 0 });
    const by = (knew: string) => estimated(answers.find((one) => one.knew === knew)?.answer);
    expect(by('no').pValue).toBeGreaterThan(0.05);
    expect(by('yes').interval?.upper).toBeLessThan(-5);
    const between = estimated(contrast).interval;
    expect(between?.lower).toBeLessThan(-14 + 2);
    expect(between?.upper).toBeGreaterThan(-14);
    // Half of the after readings know, so that the difference follows them by half. The interval is -8.3 to -6.0, the margin 5.
    expect(movesBy).toBeCloseTo(0.5, 10);
    const towards = judging.turning?.flattered[0]?.shift ?? Number.NaN;
    // Each knowing reading would have to be twice as far off as the difference.
    expect(threat(opinion, 'readers-knew').tippingPoint).toBeCloseTo(towards, 12);
    expect(threat(opinion, 'readers-knew').tipping).toContain('were too good by 1.91');
    expect(threat(opinion, 'arms-guessed').tipping).toContain('a bias of 0.95');
  });

  it('blindingByRole: forty notes by two readers, more right than a coin makes, and a threat that warns', () => {
    const [readers] = judging.blinding;
    expect(readers).toMatchObject({ role: 'reader', people: 2, late: 0 });
    expect(readers?.pValue).toBeLessThan(0.001);
    expect(threat(opinion, 'arms-guessed')).toMatchObject({ finding: 'found', seriousness: 'serious' });
    expect(threat(opinion, 'readers-knew')).toMatchObject({ finding: 'found', direction: 'towards the claim' });
    expect(threat(opinion, 'arms-guessed').text).toMatch(
      /Bang’s index \+0.45, .*James’s index of both 0.40, 0.2\d to 0.5\d/,
    );
    expect(threat(opinion, 'turns-without-reader')).toMatchObject({
      finding: 'found',
      tipping: 'The verdict changes without reader Keen (“no worthwhile effect”).',
    });
  });
});

describe('who believed what, in the same trial', () => {
  it('by person: counted from the file by hand, with the day; Keen was right of every wall, Blind no more than a coin', async () => {
    const opinion = await bundledOpinion('who-read-the-meter');
    const byPerson = opinion.judging?.blinding[0]?.byPerson;
    expect(byPerson).toEqual([
      { person: 'Blind', correct: 4, wrong: 6, undecided: 10, from: '2025-03-11', to: '2025-03-11' },
      { person: 'Keen', correct: 20, wrong: 0, undecided: 0, from: '2025-03-11', to: '2025-03-11' },
    ]);
    const text = toMarkdown(reportDocument(opinion));
    expect(text).toMatch(/Keen.*\| reader \| 11.March.2025 \| 20 \| 20 \| 0 \| 0 \|/);
  });

  it('opinion.json holds the numbers behind the threats', async () => {
    const { judging } = JSON.parse(opinionJson(await bundledOpinion('who-read-the-meter')));
    expect(judging.blinding[0].bang.treated.estimate).toBeCloseTo(0.45, 12);
    expect(judging.blinding[0].byPerson).toHaveLength(2);
    expect(judging.turning.flattered.map(({ becomes }: { becomes: string }) => becomes)).toEqual([
      'some-effect',
      'holds-zero',
    ]);
    expect(judging.knowledge).toMatchObject({ counts: { no: 120, yes: 120 }, movesBy: expect.closeTo(0.5, 9) });
    expect(judging.leaveOneOut.find(({ left }: { left: string }) => left === 'Keen').interval.upper).toBeGreaterThan(0);
    expect(judging.missing).toBeNull();
  });
});

describe('a trial where the voltage turns in every arm', () => {
  let opinion: Opinion;
  let audit: SurrogateAudit;
  beforeAll(async () => {
    opinion = await bundledOpinion('voltage-turns-everywhere');
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
    const trial = await bundledTrial('voltage-turns-everywhere');
    const instruments = trial.protocol.instruments.map(({ polarity: _, ...rest }) => rest);
    const { standIns } = judged({ ...trial, protocol: { ...trial.protocol, instruments } });
    expect(standIns[0]?.audit).toEqual({ code: 'polarity-unknown' });
  });
});

it('a trial where walls were picked for being wet: the adjusted difference cannot be distinguished from none, and it warns', async () => {
  const opinion = await bundledOpinion('picked-for-being-wet');
  const { judging } = opinion;
  // mean 7, sd 2.97, cutoff 9: the planted reliability is 2.5^2 / 2.97^2 = 0.709; four walls tell it roughly.
  expect(judging?.fall).toMatchObject({ visits: 1, reliability: expect.closeTo(0.71, 1) });
  // The table of arms has -1.6 for the treated walls; the expected fall is 1.02.
  expect(threat(opinion, 'walls-chosen-wettest')).toMatchObject({
    finding: 'found',
    seriousness: 'serious',
    measure: { value: expect.closeTo(1.02, 1) },
  });
  expect(threat(opinion, 'before-values-unlike')).toMatchObject({ finding: 'found', direction: 'towards the claim' });
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

  it('missingWalls: bounds from the changes seen, and what one lost treated wall would have to be', () => {
    const lost = walls.map((wall) => (wall.wall === 'T6' ? { wall: 'T6', arm: 'treated', before: 9.25 } : wall));
    const { missing } = judged(madeTrial(lost));
    const [x, y] = [changes.treated.slice(0, 5), changes.untreated];
    expect(missing?.missing).toEqual({ treated: 1, untreated: 0, pairs: 0 });
    expect(missing?.movesBy).toBeCloseTo(1 / 6, 12);
    // Tipping points of shifts to the margin and to zero: R's way of filling in is held in tests/statistics/sensitivity.
    const limit = welch(x, y).interval.upper;
    const sizes = [((-2 - limit) * 6).toFixed(2), (-limit * 6).toFixed(1)];
    const { tipping } = threat(formOpinion(madeTrial(lost)), 'walls-left-out');
    for (const size of sizes) expect(tipping).toContain(`${size} percentage points`);
    expect(tipping).toMatch(/^If the missing treated walls were worse than those seen by /);
    const meanOf = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;
    expect(missing?.bounds.lower).toBeCloseTo(meanOf([...x, -4.4]) - meanOf(y), 12);
    expect(missing?.bounds.upper).toBeCloseTo(meanOf([...x, 0.3]) - meanOf(y), 12);
  });

  it('missingWalls in blocks of several: put back into their blocks, the fit made again', () => {
    const inBlocks = walls.map((wall, at) => ({ ...wall, block: `B${Math.floor((at % 6) / 3)}` }));
    const lost = inBlocks.map((wall) => (wall.wall === 'T6' ? { ...wall, after: undefined } : wall));
    const without = lost.map(({ after, ...rest }) => (after === undefined ? rest : { ...rest, after }));
    const { missing } = judged(madeTrial(without));
    const primary = (after: number) => {
      const back = inBlocks.map((wall) => (wall.wall === 'T6' ? { ...wall, after: (wall.before ?? 0) + after } : wall));
      const opinion = formOpinion(madeTrial(back));
      return opinion.primary.kind === 'estimated' ? opinion.primary.estimate.estimate : Number.NaN;
    };
    expect(missing?.bounds.lower).toBeCloseTo(primary(-4.4), 9);
    expect(missing?.bounds.upper).toBeCloseTo(primary(0.3), 9);
    // Two blocks of three and three: put back, one treated wall of six carries a sixth.
    expect(missing?.movesBy).toBeCloseTo(1 / 6, 9);
  });

  it('shamAgainstControl: Welch of sham less plain walls, and no such threat without both', () => {
    const arms = [...soundProtocol.arms, { arm: 'plain', role: 'control' as const }];
    const three = walls.map((wall, at) => (at >= 9 ? { ...wall, arm: 'plain' } : wall));
    const found = judged(madeTrial(three, { protocol: { ...soundProtocol, arms } }));
    const answer = estimated(named(found.nothing, 'sham-against-control'));
    const [sham, plain] = [changes.untreated.slice(0, 3), changes.untreated.slice(3)];
    expect(answer.estimate).toBeCloseTo(welch(sham, plain).estimate, 9);
    expect(answer.interval?.upper).toBeCloseTo(welch(sham, plain).interval.upper, 9);
    expect(named(judging.nothing, 'sham-against-control')).toBeUndefined();
  });

  it('untreatedOutside: Welch of the walls that compare leaves out less those in it, blocks aside', () => {
    const arms = [...soundProtocol.arms, { arm: 'inner', role: 'control' as const }];
    const untreated = soundProtocol.arms.flatMap(({ arm, role }) => (role === 'treated' ? [] : arm));
    const treated = soundProtocol.arms.flatMap(({ arm, role }) => (role === 'treated' ? arm : []));
    const fall = (by: number) =>
      walls.map((wall, at) => (at >= 9 ? { ...wall, arm: 'inner', after: (wall.after ?? 0) - by } : wall));
    const withInner = (by: number, compare = { treated, untreated }) =>
      judged(madeTrial(fall(by), { protocol: { ...soundProtocol, arms, compare } }));
    const answer = estimated(named(withInner(0).nothing, 'untreated-outside'));
    const [kept, inner] = [changes.untreated.slice(0, 3), changes.untreated.slice(3)];
    expect(answer.estimate).toBeCloseTo(welch(inner, kept).estimate, 9);
    expect(answer.interval?.lower).toBeCloseTo(welch(inner, kept).interval.lower, 9);
    expect(named(judging.nothing, 'untreated-outside')).toBeUndefined();
    const all = withInner(0, { treated, untreated: [...untreated, 'inner'] });
    expect(named(all.nothing, 'untreated-outside')).toBeUndefined();
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
  });

  it('passMark: half less than the untreated walls, with Fieller’s limits and its source', () => {
    const passMark = halfLess;
    const found = estimated(judged({ ...sound, protocol: { ...soundProtocol, passMark } }).passMark?.answer);
    const total = (isTreated: boolean) =>
      walls.reduce((sum, wall) => sum + ((wall.arm === 'treated') === isTreated ? (wall.after ?? 0) : 0), 0);
    const ratio = total(true) / total(false);
    expect(found.estimate).toBeCloseTo(100 * (1 - ratio), 10);
    expect(found.interval?.lower).toBeLessThan(found.estimate);
  });

  it('the report names the source of the margin and of the pass mark, and lists every threat with its fact', async () => {
    const passMark = halfLess;
    const trial = { ...sound, protocol: { ...soundProtocol, passMark, marginSource: 'the tender, clause 7' } };
    const opinion = formOpinion(trial);
    const { markdown, html, json } = await renderOpinion(opinion);
    for (const words of ['the tender, clause 7', 'an agreement of 1 February 2024', 'An effect where none can be'])
      for (const text of [markdown, html]) expect(text).toContain(words);
    expect(JSON.parse(json).threats).toHaveLength(opinion.threats.length);
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

type JudgingCase =
  | {
      kind: 'stand-in';
      name: string;
      y: number[];
      s: number[];
      side: string[];
      block: string[];
      slope: number;
      slopeLower: number;
      slopeUpper: number;
      share: number;
      shareLower: number;
      shareUpper: number;
    }
  | {
      kind: 'knowing';
      name: string;
      wall: string[];
      side: string[];
      block: string[];
      knew: ('yes' | 'unsure' | 'no')[];
      y: number[];
      by: { knew: string; lower: number; upper: number; mixedEstimate: number }[];
      lower: number;
      upper: number;
      pValue: number;
      mixedEstimate: number;
      mixedError: number;
      interior: boolean;
    };

describe('judging against R, open data laid out as walls', () => {
  const file = new URL('../../reference/judging/judging.json', import.meta.url);
  const { cases }: { cases: JudgingCase[] } = JSON.parse(readFileSync(file, 'utf8'));
  const armOf = (side: string | undefined) => (side === 'treated' ? 'treated' : 'sham');

  it.each(cases.filter((one) => one.kind === 'stand-in'))(
    'surrogateAudit matches lm, and the share root finding on its pivot: $name',
    (one) => {
      const walls = one.y.map((y, at) => ({
        ...{ wall: `W${at}`, arm: armOf(one.side[at]), block: one.block[at] ?? '', before: 0, after: y },
      }));
      const trial = madeTrial(walls);
      const at = new Map(walls.map(({ wall }, index) => [wall, index]));
      const meter = trial.readings.map((reading) => {
        const isBefore = reading.date < '2025';
        const value = isBefore ? 100 : 100 + (one.s[at.get(reading.wall) ?? -1] ?? Number.NaN);
        const date = isBefore ? reading.date : '2024-12-01';
        return { ...reading, date, instrument: 'mw', value: { kind: 'measured' as const, value } };
      });
      const { standIns } = judged({ ...trial, readings: [...trial.readings, ...meter] });
      const audit = standIns[0]?.audit as SurrogateAudit;
      const slope = estimated(audit.prediction);
      expect(slope.estimate).toBeCloseTo(one.slope, 9);
      expect(slope.interval?.lower).toBeCloseTo(one.slopeLower, 9);
      expect(slope.interval?.upper).toBeCloseTo(one.slopeUpper, 9);
      const share = estimated(audit.shareExplained);
      expect(share.estimate).toBeCloseTo(one.share, 9);
      expect(share.interval?.lower).toBeCloseTo(one.shareLower, 7);
      expect(share.interval?.upper).toBeCloseTo(one.shareUpper, 7);
      // From 1 December to 15 April, the middle of 1 March to 31 May.
      expect(audit).toMatchObject({ when: 'before the moisture', delay_days: 136, lags: [] });
    },
  );

  it('two mixed models with blocks or without reach no boundary, so that their errors are compared', () => {
    const blocked = cases.filter((one) => one.kind === 'knowing' && one.interior).map((one) => one.block[0] !== '');
    expect(blocked).toEqual([false, true]);
  });

  it.each(cases.filter((one) => one.kind === 'knowing'))(
    'readingsByKnowledge: each kind and the contrast as Welch’s or the paired test, and as a mixed model’s knowledge by arm: $name',
    (one) => {
      const places = [...new Set(one.wall)].map((wall) => {
        const row = one.wall.indexOf(wall);
        return { wall, arm: armOf(one.side[row]), block: one.block[row] ?? '', before: 0, after: 0 };
      });
      const trial = madeTrial(places);
      const readings = trial.readings.flatMap((reading) =>
        reading.date < '2025'
          ? [reading]
          : one.y.flatMap((value, row) =>
              one.wall[row] === reading.wall
                ? [{ ...reading, knewArm: one.knew[row] ?? 'no', value: { kind: 'measured' as const, value } }]
                : [],
            ),
      );
      const knowledge = judged({ ...trial, readings }).knowledge;
      expect(knowledge.answers.map(({ knew }) => knew)).toEqual(one.by.map(({ knew }) => knew));
      for (const [at, { answer }] of knowledge.answers.entries()) {
        const [effect, expected] = [estimated(answer), one.by[at]];
        expect(effect.estimate).toBeCloseTo(expected?.mixedEstimate ?? Number.NaN, 6);
        expect(effect.interval?.lower).toBeCloseTo(expected?.lower ?? Number.NaN, 9);
        expect(effect.interval?.upper).toBeCloseTo(expected?.upper ?? Number.NaN, 9);
      }
      const contrast = estimated(knowledge.contrast);
      expect(contrast.estimate).toBeCloseTo(one.mixedEstimate, 6);
      expect(contrast.interval?.lower).toBeCloseTo(one.lower, 9);
      expect(contrast.interval?.upper).toBeCloseTo(one.upper, 9);
      expect(contrast.pValue).toBeCloseTo(one.pValue, 10);
      // In equal arms, or blocks of two, the mixed model's error is that of Welch or of pairs as long as no variance comes out as zero; its
      // optimiser is good to about five digits.
      if (one.interior) expect((contrast.standardError ?? 0) / one.mixedError).toBeCloseTo(1, 4);
    },
  );
});

describe('surrogateAudit: lags and leads', () => {
  const noise = (row: number) => ((row * 37) % 11) / 4;
  const meterTrial = (isFlipped: boolean): Trial => {
    const own = new Map(walls.map(({ wall }, row) => [wall, noise(row)]));
    const trial = madeTrial(walls.map((wall, row) => ({ ...wall, after: (wall.after ?? 0) + noise(row) })));
    const visits = [
      ['2024-04-10', 0],
      ['2024-09-01', 0],
      ['2024-12-01', 1],
    ] as const;
    const readings = trial.readings
      .filter(({ date }) => date < '2025')
      .flatMap((reading, row) =>
        visits.map(([date, follows], visit) => {
          const jitter = ((row * 13 + visit * 7) % 17) / 100;
          const value = 20 + 30 * follows * (own.get(reading.wall) ?? 0) + jitter;
          const isTurned = isFlipped && visit === 2;
          return {
            ...{
              ...reading,
              date,
              instrument: 'mv',
              value: { kind: 'measured' as const, value: isTurned ? -value : value },
            },
            ...(isTurned ? { lead: 'reversed' as const } : {}),
          };
        }),
      );
    const instrument = { instrument: 'mv', kind: 'potential' as const, polarity: 'point-minus-reference' as const };
    const instruments = [...soundProtocol.instruments, instrument];
    return { ...trial, readings: [...trial.readings, ...readings], protocol: { ...soundProtocol, instruments } };
  };
  const auditOf = (trial: Trial) =>
    judged(trial).standIns.find(({ instrument }) => instrument === 'mv')?.audit as SurrogateAudit;

  it('finds the visit that foretells: none 226 days before, 1/30 of a point a millivolt 135 days before', () => {
    const { lags } = auditOf(meterTrial(false));
    expect(lags.map(({ day }) => day)).toEqual(['2024-09-01', '2024-12-01']);
    expect((lags[0]?.delay_days ?? 0) - (lags[1]?.delay_days ?? 0)).toBe(91);
    const early = estimated(lags[0]?.prediction).interval;
    expect((early?.lower ?? 1) * (early?.upper ?? 1)).toBeLessThan(0);
    const late = estimated(lags[1]?.prediction).interval;
    expect(late?.lower).toBeGreaterThan(0);
    expect(late?.upper).toBeLessThan(0.07);
  });

  it('turns readings with reversed leads back', () => {
    const [straight, flipped] = [auditOf(meterTrial(false)), auditOf(meterTrial(true))];
    expect(flipped.arms).toEqual(straight.arms);
    expect(flipped.arms.every(({ turned }) => turned === 0)).toBe(true);
  });
});

describe('defensibleAnalyses', () => {
  const labels = (judging: Judging) =>
    judging.choices.map((one) => labelOf(one.kind === 'estimated' ? one.estimate : one.notEstimated));

  it('leaves out each height and the two stations that matter most, and adds calibrated instruments', async () => {
    const found = labels((await bundledOpinion('paired-garden-walls')).judging as Judging);
    expect(found).toContain('Without the stations at 200 mm');
    expect(found.filter((label) => label.includes('est of 144)'))).toHaveLength(2);
    expect(found.some((label) => label.includes('calibrated with cores'))).toBe(true);
    expect(found.length).toBeLessThanOrEqual(27);
  });

  it('takes off season and weather where the walls were read often enough, as in the part on drying', async () => {
    const { judging, drying } = await bundledOpinion('season-dries-both');
    const adjusted = drying?.kind === 'shown' ? drying.adjusted : [];
    const found = ['season-adjusted', 'weather-adjusted'].map((id) => named(judging?.choices ?? [], id));
    expect(found.map((one) => estimated(one).id)).toEqual(['season-adjusted', 'weather-adjusted']);
    expect(found).toEqual(['season-adjusted', 'weather-adjusted'].map((id) => named(adjusted, id)));
  });

  it('estimates readings below the limit instead of leaving them out, on the outcome’s scale', () => {
    // Two readings a wall and window, and a third of each treated wall below 4 afterwards.
    const below = sound.readings.flatMap((reading) => {
      const value = reading.value.kind === 'measured' ? reading.value.value : Number.NaN;
      const again = {
        ...reading,
        date: `${reading.date.slice(0, 8)}20`,
        value: { kind: 'measured' as const, value: value + 0.4 },
      };
      const isBelow = reading.date > '2025' && reading.wall.startsWith('T');
      const low = { ...reading, date: '2025-04-25', value: { kind: 'below-detection' as const, limit: 4 } };
      return [reading, again, ...(isBelow ? [low] : [])];
    });
    const opinion = formOpinion({ ...sound, readings: below });
    const found = estimated(named(opinion.judging?.choices ?? [], 'below-likelihood'));
    const stated = opinion.instruments.find(({ isOutcome }) => isOutcome)?.belowDetection?.likelihood;
    expect(stated).toMatchObject({ kind: 'computed', value: { estimate: found.estimate, interval: found.interval } });
    // What is below 4 lowers the treated walls' after means.
    expect(found.estimate).toBeLessThan(opinion.primary.kind === 'estimated' ? opinion.primary.estimate.estimate : 0);
    expect(named(judged(sound).choices, 'below-likelihood')).toBeUndefined();
  });

  it('moves the after window a month only where that changes what is read: by hand for one late reading of every wall', () => {
    const late = sound.readings.flatMap((reading) =>
      reading.date < '2025' ? [] : [{ ...reading, date: '2025-06-15', value: { kind: 'measured' as const, value: 5 } }],
    );
    const found = judged({ ...sound, readings: [...sound.readings, ...late] });
    const moved = estimated(named(found.choices, 'after-later'));
    // Read at 5 on 15 June and as before on 10 April: moved to 31 March to 30 June, a wall's after value is the mean of both.
    const halved = (list: number[], prefix: string) =>
      list.map((change, at) => {
        const before = walls.find(({ wall }) => wall === `${prefix}${at + 1}`)?.before ?? Number.NaN;
        return (before + change + 5) / 2 - before;
      });
    const expected = welch(halved(changes.treated, 'T'), halved(changes.untreated, 'U'));
    expect(moved.estimate).toBeCloseTo(expected.estimate, 9);
    expect(named(judged(sound).choices, 'after-later')).toBeUndefined();
  });
});

describe('the voltage ledger in the report', () => {
  it('shows the field that the plan claims as a range, with a voltage or without', () => {
    const claimed = { ...sound, protocol: { ...soundProtocol, claimedField_v_per_m: 5 } };
    const text = toMarkdown(reportDocument(formOpinion(claimed)));
    expect(text).toContain('The field that the plan says the treatment makes, 5 V/m | 0 to 2 | nothing to 1.6 times');
    expect(text).toContain('the upper end common practice, no source');
    expect(text).not.toContain('as found in walls');
    expect(toMarkdown(reportDocument(formOpinion(sound)))).not.toContain('Ledger');
  });
});
