import { beforeAll, describe, expect, it } from 'vitest';
import { dryingOfTrial } from '../../../src/findings/drying/drying-of-trial.js';
import { formOpinion, moistureReadings, type Opinion, type Trial, verdictOfTrial } from '../../../src/index.js';
import type { ReportDocument } from '../../../src/report/document.js';
import { reportDocument } from '../../../src/report/report-document.js';
import { dryingSection } from '../../../src/report/sections/drying-section.js';
import { opinionJson } from '../../../src/report/writers/opinion-json.js';
import { toHtml } from '../../../src/report/writers/to-html.js';
import { toMarkdown } from '../../../src/report/writers/to-markdown.js';
import { bundledOpinion, bundledTrial } from '../../helpers/bundled-opinions.js';

let trial: Trial;
let opinion: Opinion;

beforeAll(async () => {
  trial = await bundledTrial('drying-through-seasons');
  opinion = await bundledOpinion('drying-through-seasons');
  // Seconds on a machine at rest; others may be at work on it.
}, 60_000);

function shown(of: Opinion) {
  if (of.drying?.kind !== 'shown') throw new Error(`not shown: ${JSON.stringify(of.drying)}`);
  return of.drying;
}

const firstWalls = (of: Trial): Trial => {
  const isKept = ({ wall }: { readonly wall: string }) => wall < 'W05';
  return {
    ...of,
    walls: of.walls.filter(isKept),
    stations: of.stations.filter(isKept),
    // Up to the end of the after window.
    cores: of.cores.filter((core) => isKept(core) && core.date < '2025-06-01'),
  };
};

const early = (of: Trial): Trial => ({ ...of, cores: of.cores.filter(({ date }) => date < '2024-08-01') });

/** The trial with other moisture: the wet mass that each core then has. */
function remade(change: (moisture: number, date: string, wall: string) => number): Trial {
  const cores = trial.cores.map((core) => {
    const { wet_g, dry_g, container_g } = core;
    if (wet_g === undefined || dry_g === undefined) return core;
    const moisture = (100 * (wet_g - dry_g)) / (dry_g - container_g);
    const next = Math.max(0.3, change(moisture, core.date, core.wall));
    return { ...core, wet_g: dry_g + ((dry_g - container_g) * next) / 100 };
  });
  return { ...trial, cores };
}

const codes = (of: Pick<Opinion, 'verdict'>) => of.verdict.weaknesses.map(({ code }) => code);

describe('formOpinion(trial).drying', () => {
  it('compares walls in rates, losses and times, whose truth the data set states', () => {
    const { answers, curves, start, times, timesToDry, adjusted } = shown(opinion);
    expect([curves.length, start]).toEqual([20, '2024-06-04']);
    const found = new Map(
      answers.flatMap((answer) =>
        answer.kind === 'estimated' ? [[answer.estimate.id, answer.estimate] as const] : [],
      ),
    );
    expect([...found.keys()]).toEqual([
      'water-lost',
      'mean-rate',
      'drying-index',
      'rate-ratio',
      'rate-ratio-one-fit',
      'rate-ratio-season',
      'days-to-fall',
      'days-to-fall-ratio',
      'days-to-dry',
      'days-to-dry-ratio-restricted',
    ]);
    // Walls with the barrier dry 2.4 times as fast.
    const [barrier, holes] = shown(opinion).losses;
    expect(barrier!.lost - holes!.lost).toBeCloseTo(found.get('water-lost')!.estimate, 10);
    expect(barrier!.index! - holes!.index!).toBeCloseTo(found.get('drying-index')!.estimate, 10);
    // A rate is the loss of the 539 days brought to thirty of them.
    expect(found.get('mean-rate')!.estimate).toBeCloseTo((30 * found.get('water-lost')!.estimate) / 539, 10);
    expect(barrier!.lostIn30Days).toBeCloseTo((30 * barrier!.lost) / 539, 10);
    for (const id of ['rate-ratio', 'rate-ratio-one-fit', 'rate-ratio-season']) {
      const { interval } = found.get(id)!;
      expect(interval!.lower).toBeLessThan(2.4);
      expect(interval!.upper).toBeGreaterThan(2.4);
    }
    expect(found.get('water-lost')!.interval!.lower).toBeGreaterThan(0);
    expect(found.get('drying-index')!.interval!.upper).toBeLessThan(0);
    expect(found.get('days-to-fall')!.interval!.upper).toBeLessThan(0);
    expect(found.get('days-to-fall-ratio')!.interval!.upper).toBeLessThan(1);
    expect(times?.arms.map(({ arm }) => arm)).toEqual(['barrier', 'holes only']);
    expect(times!.arms[0]!.median_d!).toBeLessThan(times!.arms[1]!.median_d!);
    expect(timesToDry).toMatchObject({ limit: 6, arms: [{ fallen: 10 }, { fallen: 6 }] });
    const main = opinion.primary.kind === 'estimated' ? opinion.primary.estimate.estimate : Number.NaN;
    for (const answer of adjusted) {
      if (answer.kind === 'not-estimated') throw new Error(answer.notEstimated.reason.code);
      expect(Math.abs(answer.estimate.estimate - main)).toBeLessThan(0.1);
    }
    expect(adjusted.map((one) => one.kind === 'estimated' && one.estimate.id)).toEqual(
      ['season', 'weather', 'rain', 'heating'].map((name) => `${name}-adjusted`),
    );
  });

  it('stands in the report with its picture and its numbers, and in opinion.json', async () => {
    expect(reportDocument(opinion).sections.map(({ id }) => id)).toContain('annex-drying');
    const page = (of: Opinion): ReportDocument => ({ kicker: '', title: '', sections: [dryingSection(of)!] });
    const html = await toHtml(page(opinion));
    expect(html).toContain('How the walls dried');
    expect(html).toContain('Vapour pressure of a wet wall');
    const markdown = toMarkdown(page(opinion));
    expect(markdown).toContain('Ratio of drying rates, a rate for each wall');
    expect(markdown).toContain('sensitivity checks, chosen after the readings');
    const planned = { ...opinion, protocol: { ...opinion.protocol, adjustments: ['season' as const] } };
    expect(toMarkdown(page(planned))).toContain(
      'season named in the plan before the readings, weather, rain and heating sensitivity checks chosen after them',
    );
    expect(markdown).toMatch(
      /\| barrier \| 10 \| 9\.\d+ \| 5\.\d+ \| 0\.\d+ \| 0\.\d+ \|\n\| holes only \| 10 \| 10\.\d+ \| 4\.\d+ \|/,
    );
    expect(markdown).toMatch(
      /constant rate, then falling rate: 1 wall\. The constant rate gave way to a falling one in W\d+ on day \d+ \(/,
    );
    expect(markdown).toMatch(
      /makes 274 to 414 days for walls of 225 to 340 mm\. These were followed for 539 days\. That is a prompt/,
    );
    expect(markdown).toContain('Adjusted for season and weather');
    expect(markdown).toContain(
      '**Adjusted for the rain**: linear mixed model of the walls’ visits adjusted for rain of the thirty days before',
    );
    const { drying } = JSON.parse(opinionJson(opinion));
    expect(drying.comparisons.map(({ id }: { id: string }) => id)).toContain('weather-adjusted');
    expect(drying.losses[0]).toMatchObject({ arm: 'barrier', walls: 10, dryingIndex: expect.any(Number) });
    expect(drying.changesOfStage).toHaveLength(1);
    expect(drying.timesToDry).toMatchObject({ dryBelow: 6, arms: [{ walls: 10 }, { walls: 10 }] });
    expect(markdown).toContain('Until a wall stood at 6 % by mass or below, which the plan calls dry, and stayed so');
    expect(drying.timesToFall.arms.map(({ notYet }: { notYet: number[] }) => notYet.length)).toEqual([7, 7]);
  });

  it('says why there are no curves', () => {
    const few = formOpinion(early(trial));
    expect(few.drying).toMatchObject({
      kind: 'not-shown',
      reason: { code: 'too-few-visits-after', needed: 4 },
    });
    const { outcome } = trial.protocol;
    const wetter = formOpinion({
      ...early(trial),
      protocol: { ...trial.protocol, outcome: { ...outcome, better: 'higher' } },
    });
    expect(wetter.drying).toMatchObject({ kind: 'not-shown', reason: { code: 'higher-is-better' } });
    const asVoltage = trial.protocol.instruments.map((one) =>
      one.instrument === outcome.instrument ? { ...one, kind: 'potential' as const } : one,
    );
    const voltage = dryingOfTrial({ ...trial, protocol: { ...trial.protocol, instruments: asVoltage } }, [], new Map());
    expect(voltage).toMatchObject({ kind: 'not-shown', reason: { code: 'outcome-is-voltage' } });
  });

  it('gives reasons where walls never dry, or get wetter', () => {
    const late = (date: string) => (Date.parse(date) - Date.parse('2024-06-04')) / 86_400_000 / 30;
    const rising = formOpinion(
      firstWalls(remade((_, date, wall) => 6 + Number(wall.slice(1)) / 10 + 0.1 * Math.max(0, late(date)))),
    );
    const { answers, times } = shown(rising);
    const ratio = answers.find((one) => one.kind === 'not-estimated' && one.notEstimated.id === 'rate-ratio');
    expect(ratio?.kind === 'not-estimated' && ratio.notEstimated.reason).toEqual({
      code: 'walls-without-rate',
      without: 4,
      of: 4,
    });
    expect(times?.arms.map(({ fallen }) => fallen)).toEqual([0, 0]);
    expect(times?.logRank).toBeUndefined();
  });

  it('finds no rate and no second stage in walls that stay as they are, or whose readings all lie in one stage', () => {
    const scatter = (date: string, wall: string) => Math.sin(Date.parse(date) / 1e9 + Number(wall.slice(1)));
    const staying = shown(formOpinion(firstWalls(remade((_, date, wall) => 8 + 0.05 * scatter(date, wall)))));
    expect(staying.shapes).toEqual([{ shape: 'none', walls: 4 }]);
    expect(staying.timesToDry?.arms.map(({ fallen }) => fallen)).toEqual([0, 0]);
    const days = (date: string) => Math.max(0, (Date.parse(date) - Date.parse('2024-06-04')) / 86_400_000);
    const straight = shown(
      formOpinion(firstWalls(remade((_, date, wall) => 11 - 0.008 * days(date) + 0.05 * scatter(date, wall)))),
    );
    expect(straight.shapes).toEqual([{ shape: 'constant-rate', walls: 4 }]);
    const answerOf = (id: string) =>
      straight.answers.find((one) => (one.kind === 'estimated' ? one.estimate : one.notEstimated).id === id);
    const byWall = answerOf('rate-ratio');
    expect(byWall?.kind === 'estimated' && byWall.estimate.method).toMatchObject({ exponential: { walls: 0, of: 4 } });
    const oneFit = answerOf('rate-ratio-one-fit');
    expect(oneFit?.kind === 'not-estimated' && oneFit.notEstimated.reason).toEqual({ code: 'curves-not-exponential' });
  });
});

/** Three pairs of the ten: what is asked of them needs no more, and the models of twenty walls take seconds. */
const threePairs = (of: Trial): Trial => {
  const isKept = ({ block = '' }: { readonly block?: string }) => block === 'P05' || block === 'P06' || block < 'P02';
  const walls = of.walls.filter(isKept);
  const names = new Set(walls.map(({ wall }) => wall));
  const own = ({ wall }: { readonly wall: string }) => names.has(wall);
  return { ...of, walls, stations: of.stations.filter(own), cores: of.cores.filter(own) };
};

const sidesOf = ({ walls }: Trial) =>
  new Map(walls.map(({ wall, arm }) => [wall, arm === 'barrier' ? ('treated' as const) : ('untreated' as const)]));

/** Asked for twice below. */
let ofThreePairs: ReturnType<typeof dryingOfTrial> | undefined;
function dryingOfThreePairs(): ReturnType<typeof dryingOfTrial> {
  const pairs = threePairs(trial);
  ofThreePairs ??= dryingOfTrial(pairs, moistureReadings(pairs), sidesOf(pairs));
  return ofThreePairs;
}

describe('where several walls count as one', () => {
  it('no answer of drying counts each of them, and the curves stay', () => {
    const pairs = threePairs(trial);
    const ofWalls = dryingOfThreePairs();
    const ofSites = dryingOfTrial(pairs, moistureReadings(pairs), sidesOf(pairs), 'site');
    if (ofWalls.kind !== 'shown' || ofSites.kind !== 'shown') throw new Error('not shown');
    const kinds = ({ answers, adjusted }: typeof ofWalls) => new Set([...answers, ...adjusted].map(({ kind }) => kind));
    expect(kinds(ofWalls).has('estimated')).toBe(true);
    expect([...kinds(ofSites)]).toEqual(['not-estimated']);
    expect(ofSites.curves).toEqual(ofWalls.curves);
  });
});

describe('drying-through-seasons with other air beside the arms, and with treatments months apart', () => {
  const adjustedIn = (drying: ReturnType<typeof dryingOfTrial>, id: string) => {
    const found = drying.kind === 'shown' ? drying.adjusted : [];
    const one = found.find((each) => each.kind === 'estimated' && each.estimate.id === id);
    if (one?.kind !== 'estimated') throw new Error('not estimated');
    return { ...one.estimate, facts: drying };
  };
  const adjustedOf = (of: Trial, id: string) => adjustedIn(dryingOfTrial(of, moistureReadings(of), sidesOf(of)), id);
  /** A site for each wall with air of its own: the yard’s, and from the treatment on so much less humid beside treated walls. */
  const withAir = (points: number): Trial => {
    const { walls: own, ...pairs } = threePairs(trial);
    const walls = own.map((wall) => ({ ...wall, site: `room of ${wall.wall}` }));
    const yard = trial.climate.filter(({ place }) => place === 'yard');
    const climate = walls.flatMap(({ site, arm, treatedOn = '' }) =>
      yard.map(({ rain_mm: _, ...reading }) => {
        const less = arm === 'barrier' && reading.time.slice(0, 10) >= treatedOn ? points : 0;
        return { ...reading, place: site, relative_humidity_pct: (reading.relative_humidity_pct ?? 0) - less };
      }),
    );
    return { ...pairs, walls, climate };
  };

  it('25 points less humidity beside treated walls moves the answer adjusted for the weather, and the air is unlike', {
    timeout: 60_000,
  }, () => {
    const [alike, unlike] = [0, 25].map((points) => adjustedOf(withAir(points), 'weather-adjusted'));
    expect(Math.abs(unlike!.estimate - alike!.estimate)).toBeGreaterThan(0.1);
    expect([alike!.facts.airOfArms?.airUnlike, unlike!.facts.airOfArms?.airUnlike]).toEqual([false, true]);
    expect(unlike!.facts.airBeside.cover).toBe('both-recorded');
    // As with the one yard for all.
    expect(alike!.estimate).toBeCloseTo(adjustedIn(dryingOfThreePairs(), 'weather-adjusted').estimate, 10);
  });

  it('walls treated eight months later are counted from their own day, their partners with them', () => {
    const pairs = threePairs(trial);
    const late = pairs.walls.filter(({ block = '' }) => block > 'P05').map(({ wall }) => wall);
    const own = (wall: string) => (late.includes(wall) ? '2025-02-15' : '2024-06-04');
    const staggered = {
      ...pairs,
      walls: pairs.walls.map((wall) => ({ ...wall, ...(wall.arm === 'barrier' ? { treatedOn: own(wall.wall) } : {}) })),
    };
    const { facts } = adjustedOf(staggered, 'season-adjusted');
    if (facts.kind !== 'shown') throw new Error(facts.reason.code);
    expect([facts.start, facts.lastStart, facts.spread?.days]).toEqual(['2024-06-04', '2025-02-15', 256]);
    for (const { wall, days, times_d } of facts.curves) {
      expect(times_d[0], wall).toBe(0);
      const last = (Date.parse(days.at(-1) ?? '') - Date.parse(own(wall))) / 86_400_000;
      expect(times_d.at(-1), wall).toBe(last);
    }
    // All curves cover no more than the last treated walls’ days.
    expect(facts.period_d).toBe(539 - 256);
    const page: ReportDocument = {
      kicker: '',
      title: '',
      sections: [dryingSection({ ...opinion, drying: facts })!],
    };
    expect(toMarkdown(page)).toMatch(/from its own treatment, between 4\sJune\s2024 and 15\sFebruary\s2025/);
  });
});

describe('the weaknesses of drying', () => {
  it('not-steady-before: walls that drift before the treatment have it, walls at rest have not', () => {
    // A season's drift, which untreated walls share, is told and held against nobody.
    const seasonal = opinion.threats.find(({ code }) => code === 'not-steady-before');
    expect(seasonal?.finding).toBe('not-found');
    expect(seasonal?.measure?.interval?.upper).toBeLessThan(0);
    const drifting = remade((moisture, date) =>
      date < '2024-06-04' ? moisture - (Date.parse(date) / 86_400_000 - 19_878) * 0.04 : moisture,
    );
    expect(codes(verdictOfTrial(early(drifting)))).toContain('not-steady-before');
    const flat = remade((moisture, date) =>
      date < '2024-06-04' ? moisture + (Date.parse(date) / 86_400_000 - 19_850) * 0.0107 : moisture,
    );
    expect(codes(verdictOfTrial(early(flat)))).not.toContain('not-steady-before');
  });

  it('larger-than-ceiling: a fall that evaporation cannot bring about has it', () => {
    expect(codes(opinion)).not.toContain('larger-than-ceiling');
    const { windows } = trial.protocol;
    // Three weeks apart, in a wall of a metre and more.
    const after = { from: '2024-06-05', to: '2024-06-25' };
    const before = { from: '2024-05-20', to: '2024-06-04' };
    const thick = trial.walls.map((wall) => ({ ...wall, thickness_mm: 1200 }));
    const sudden = remade((moisture, date) => (date > '2024-06-05' ? moisture - 7 : moisture + 1));
    const quick = verdictOfTrial({
      ...early(sudden),
      climate: [],
      walls: thick,
      protocol: { ...trial.protocol, windows: { ...windows, before, after } },
    });
    const weakness = quick.verdict.weaknesses.find(({ code }) => code === 'larger-than-ceiling');
    // Two faces at 1.5 mm for 21 days between the visits, in 1.2 m of 1700 kg/m³: 63 over 2040.
    expect(weakness?.text).toContain('where the air could take 3.00');
    expect(weakness?.text).toContain('in 21 days, where 3.09 % by mass is the most');
    expect(weakness?.seriousness).toBe('serious');
  });
});
