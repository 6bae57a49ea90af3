import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { VerdictCode } from '../../../src/analysis/index.js';
import { renderSvg, type SharesChartData, sharesChart } from '../../../src/charts/index.js';
import { type RateTrouble, rateDesigns, trueEffects } from '../../../src/planning/error-rates/rate-designs.js';
import type { RateRow } from '../../../src/planning/error-rates/rate-row.js';
import { type CellDone, designOf, type SizeDone } from './rate-cells.js';

export interface VerdictsFile {
  readonly source: string;
  readonly sizes: readonly SizeDone[];
  readonly cells: readonly CellDone[];
}

/** The designs of which every truth was counted; a run that was broken off leaves others for the next. */
export function wholeDesigns({ cells }: Pick<VerdictsFile, 'cells'>): readonly string[] {
  return rateDesigns.flatMap(({ id }) =>
    trueEffects.every((truth) => cells.some((one) => one.design === id && one.truth === truth)) ? [id] : [],
  );
}

/** The rows of whole designs. */
function wholeRows({ cells }: VerdictsFile): readonly CellDone[] {
  const whole = new Set(wholeDesigns({ cells }));
  return cells.filter(({ design }) => whole.has(design));
}

/** What is asked of the rule, in percent; beyond it by more than two Monte Carlo standard errors a row is a miss. */
const REQUIRED = { worthwhileUnderNothing: 2.5, noWorthwhileAtMargin: 2.5, coverage: [94, 96] } as const;

/** Of these no interval promises to hold the truth: nobody can see it, or the evidence word has to say it. */
const promisesNothing: readonly RateTrouble[] = ['two-walls', 'readers-say-they-knew', 'readers-hide-that-they-knew'];

export interface Requirement {
  readonly what: string;
  readonly design: string;
  readonly truth: number;
  readonly pct: number;
  readonly standardError: number;
  readonly isMet: boolean;
}

/** Every requirement with what was counted; coverage in randomised designs with at least 8 walls, or 4 in each arm. */
export function requirements(file: VerdictsFile): readonly Requirement[] {
  return wholeRows(file).flatMap((one): Requirement[] => {
    const { design: id, truth, verdicts } = one;
    const { design, trouble } = designOf(id);
    if (promisesNothing.includes(trouble)) return [];
    const at = (code: VerdictCode) => (100 * (verdicts.codes[code] ?? 0)) / verdicts.trials;
    const most = (what: string, pct: number, limit: number): Requirement => {
      const standardError = errorOf(limit, verdicts.trials);
      return { what, design: id, truth, pct, standardError, isMet: pct <= limit + 2 * standardError };
    };
    const { worthwhileUnderNothing, noWorthwhileAtMargin, coverage } = REQUIRED;
    const covered = (100 * verdicts.held) / Math.max(1, verdicts.intervals);
    const ofCoverage = errorOf(95, verdicts.intervals);
    return [
      ...(truth === 0 ? [most('worthwhile under nothing', at('worthwhile'), worthwhileUnderNothing)] : []),
      ...(truth === 1
        ? [most('no-worthwhile-effect at the margin', at('no-worthwhile-effect'), noWorthwhileAtMargin)]
        : []),
      ...(design.treated + design.untreated >= 8
        ? [
            {
              ...{ what: 'coverage', design: id, truth, pct: covered, standardError: ofCoverage },
              isMet: covered >= coverage[0] - 2 * ofCoverage && covered <= coverage[1] + 2 * ofCoverage,
            },
          ]
        : []),
    ];
  });
}

function errorOf(pct: number, trials: number): number {
  return Math.sqrt((pct * (100 - pct)) / Math.max(1, trials));
}

const codes: readonly (readonly [VerdictCode, string, number])[] = [
  ['harmful', 'harmful', -1],
  ['no-worthwhile-effect', 'no worthwhile effect', -0.6],
  ['undecided', 'undecided', 0],
  ['not-answerable', 'not answerable', 0],
  ['smaller-than-worthwhile', 'smaller than worthwhile', 0.35],
  ['some-effect', 'some effect', 0.65],
  ['worthwhile', 'worthwhile', 1],
];

const truthNames: Readonly<Record<number, string>> = { 0: 'nothing', 0.5: '½', 1: 'margin', 1.5: '1½', 2: '2' };

/** The committed table, from the committed counts. */
export function ratesTable(file: VerdictsFile): string {
  const { source } = file;
  const cells = wholeRows(file);
  const whole = wholeDesigns(file);
  const open = rateDesigns.flatMap(({ id, label }) => (whole.includes(id) ? [] : [label]));
  const trials = cells[0]?.verdicts.trials ?? 0;
  const missed = requirements(file).filter(({ isMet }) => !isMet);
  const shown = codes.filter(([code]) => cells.some(({ verdicts }) => (verdicts.codes[code] ?? 0) > 0));
  return `# How often each verdict comes out when the truth is known

Made by ${source}; not edited by hand. ${trials.toLocaleString('en-GB')} simulated trials a row for the verdict, so that 2.5 % has a standard error of ${errorOf(2.5, trials).toFixed(2)} points and a coverage of
95 % one of ${errorOf(95, trials).toFixed(2)}. Walls are those of \`src/planning/simulated-wall\`: the front of the water, seasons, salts and readers are simulated, the margin is about 2 % by mass, and a barrier
against rising water is sized so that its mean effect is nothing, half the margin, the margin, one and a half, or two. The verdict comes from the primary analysis and the rule alone. Evidence words, for
which every threat is looked for, come from far fewer trials and are in a table of their own.

![Shares of each verdict by design and true effect](verdicts.svg)

Required, within two standard errors: \`worthwhile\` under nothing at most ${REQUIRED.worthwhileUnderNothing} %; \`no-worthwhile-effect\` at the margin at most ${REQUIRED.noWorthwhileAtMargin} %; intervals with a coverage of ${REQUIRED.coverage[0]} to ${REQUIRED.coverage[1]} % in randomised trials
of 8 walls or more. Not asked of two walls, nor where readers shave: there the evidence word has to speak, and of readers who hide what they knew nobody can.
${missed.length === 0 ? 'Every row meets it.' : `**Missed**: ${missed.map(({ what, design, truth, pct }) => `${designOf(design).label}, ${truthNames[truth]}: ${what} ${pct.toFixed(1)} %`).join('; ')}. An opinion on such a trial names it (\`arms-unequal\`).`}

${open.length === 0 ? '' : `Not counted yet: ${open.join('; ')}. The command goes on where it was broken off.\n\n`}In percent of the trials of a row; “half” is the mean half-width of the interval in margins.

| design | true effect | ${shown.map(([, name]) => name).join(' | ')} | coverage | half |
| --- | --- | ${shown.map(() => '---:').join(' | ')} | ---: | ---: |
${cells.map((one) => rowOf(one, shown, missed)).join('\n')}

## Evidence words

Of all true effects together, in percent. Every simulated trial states the whole core list; its plan is not sealed.

| design | trials | firm | fair | shaky | none |
| --- | ---: | ---: | ---: | ---: | ---: |
${rateDesigns
  .flatMap(({ id, label }) =>
    evidenceRow(
      label,
      cells.filter(({ design }) => design === id),
    ),
  )
  .join('\n')}
`;
}

function rowOf(
  { design, truth, margin, verdicts }: CellDone,
  shown: typeof codes,
  missed: readonly Requirement[],
): string {
  const { trials, intervals, held, meanHalfWidth } = verdicts;
  const pct = (count: number, of: number) => ((100 * count) / Math.max(1, of)).toFixed(1);
  const covered = `${pct(held, intervals)}${intervals < trials ? ` of ${intervals.toLocaleString('en-GB')}` : ''}`;
  const isMissed = (what: string) =>
    missed.some((one) => one.design === design && one.truth === truth && one.what.startsWith(what));
  const marked = (text: string, what: string) => (isMissed(what) ? `**${text}**` : text);
  const cells = shown.map(([code]) => marked(pct(verdicts.codes[code] ?? 0, trials), code));
  return `| ${designOf(design).label} | ${truthNames[truth]} | ${cells.join(' | ')} | ${marked(covered, 'coverage')} | ${(meanHalfWidth / margin).toFixed(2)} |`;
}

function evidenceRow(label: string, cells: readonly CellDone[]): readonly string[] {
  if (cells.length === 0) return [];
  const trials = cells.reduce((sum, { evidence }) => sum + evidence.trials, 0);
  const words = (['firm', 'fair', 'shaky', 'none'] as const).map((word) => {
    const count = cells.reduce((sum, { evidence }) => sum + (evidence.words[word] ?? 0), 0);
    return ((100 * count) / trials).toFixed(0);
  });
  return [`| ${label} | ${trials} | ${words.join(' | ')} |`];
}

/** The same as bars. */
export function ratesChart(file: VerdictsFile): SharesChartData {
  const cells = wholeRows(file);
  const shown = codes.filter(([code]) => cells.some(({ verdicts }) => (verdicts.codes[code] ?? 0) > 0));
  return {
    title: 'How often each verdict comes out, by design and true effect',
    whole: `${(cells[0]?.verdicts.trials ?? 0).toLocaleString('en-GB')} simulated trials`,
    parts: shown.map(([, label, strength]) => ({ label, strength })),
    columns: trueEffects.map((truth) => (truth === 0 ? 'nothing' : `${truth} × margin`)),
    rows: rateDesigns.flatMap(({ id, label }) => {
      const own = cells.filter(({ design }) => design === id);
      const shares = own.map(({ verdicts }) => shown.map(([code]) => (verdicts.codes[code] ?? 0) / verdicts.trials));
      return own.length === 0 ? [] : [{ label, shares }];
    }),
  };
}

/** What the package carries: the counts alone. */
export function knownRows(file: VerdictsFile): readonly RateRow[] {
  return wholeRows(file).map(({ design, truth, margin, verdicts, evidence }) => ({
    ...{ design, truth, margin: Math.round(1e4 * margin) / 1e4 },
    verdicts: { ...verdicts, meanHalfWidth: Math.round(1e4 * verdicts.meanHalfWidth) / 1e4 },
    evidence,
  }));
}

/** Writes the table, the chart and what the package carries. */
export async function writeVerdicts(folder: string, file: VerdictsFile): Promise<void> {
  writeFileSync(join(folder, 'verdicts.md'), ratesTable(file));
  writeFileSync(join(folder, 'verdicts.svg'), `${await renderSvg(sharesChart(ratesChart(file), { width: 900 }))}\n`);
  const path = join(folder, '..', '..', 'src', 'planning', 'error-rates', 'known-rates.ts');
  const rows = knownRows(file).map((row) => `  ${JSON.stringify(row)},\n`);
  const text = `import type { RateRow } from './rate-row.js';\n\n/** Made by \`npm run coverage:verdicts\`; not edited by hand. */\nexport const knownRates: readonly RateRow[] = [\n${rows.join('')}];\n`;
  writeFileSync(path, text);
  // As every source file is written.
  spawnSync('npx', ['biome', 'format', '--write', path], { stdio: 'inherit' });
}
