import type { MethodCoverage } from './count-coverage.js';
import { type Allocation, SPREAD, TRUE_EFFECT } from './simulated-trial.js';

export interface CoverageRun {
  readonly allocation: Allocation;
  readonly walls: number;
  readonly seed: number;
  readonly methods: readonly MethodCoverage[];
}

export interface CoverageFile {
  readonly source: string;
  readonly runs: readonly CoverageRun[];
}

/** What a 95 % interval must cover; 4,000 trials have a standard error of 0.34 points. */
const BAND = { lower: 0.935, upper: 0.965 } as const;

/** The share of intervals that held the effect, of those that there were; absent where there were none. */
export function coverageOf({ intervals, held }: MethodCoverage): number | undefined {
  return intervals === 0 ? undefined : held / intervals;
}

export function isInBand(coverage: number): boolean {
  return coverage >= BAND.lower && coverage <= BAND.upper;
}

const headings: Readonly<Record<Allocation, string>> = {
  complete: 'Half of all walls treated, no blocks',
  pairs: 'One wall of each pair treated',
  'blocks-of-four': 'Two walls of each block of four treated',
};

/** The table as it is committed. */
export function coverageTable({ source, runs }: CoverageFile): string {
  const allocations = [...new Set(runs.map(({ allocation }) => allocation))];
  const trials = Math.min(...runs.flatMap(({ methods }) => methods.map((method) => method.trials)));
  return [
    '# Coverage of 95 % intervals',
    '',
    `Made by ${source}; not edited by hand. ${trials.toLocaleString('en')} simulated trials a cell, so that a coverage of 95 % has a`,
    `standard error of ${(100 * Math.sqrt((0.95 * 0.05) / trials)).toFixed(2)} points. Each trial: three stations a wall, two visits before and two after, one reading in ten`,
    `missed; the effect is ${TRUE_EFFECT} % by mass. Standard deviations: ${spreadInWords()}.`,
    '',
    `Coverage from ${percent(BAND.lower)} to ${percent(BAND.upper)} is taken as right; what is outside is in bold. "Half" is the mean half-length of the`,
    'interval: of two methods that cover alike the shorter is the better.',
    '',
    ...allocations.flatMap((allocation) => section(allocation, runs)),
  ].join('\n');
}

function section(allocation: Allocation, runs: readonly CoverageRun[]): string[] {
  const here = runs.filter((run) => run.allocation === allocation).sort((a, b) => b.walls - a.walls);
  const columns = here.flatMap(({ walls }) => [`${walls} walls`, 'half']);
  return [
    `## ${headings[allocation]}`,
    '',
    `| method | ${columns.join(' | ')} | remark |`,
    `| --- | ${columns.map(() => '---:').join(' | ')} | --- |`,
    ...here[0]!.methods.map((method, index) => {
      const sizes = here.map(({ methods }) => methods[index]!);
      const cells = sizes.flatMap((size) => [
        shownCoverage(size),
        size.intervals === 0 ? '' : size.meanHalfWidth.toFixed(2),
      ]);
      return `| ${method.label} | ${cells.join(' | ')} | ${remarkFor(sizes)} |`;
    }),
    '',
  ];
}

/** A cell of the table. */
export function shownCoverage(method: MethodCoverage): string {
  const coverage = coverageOf(method);
  if (coverage === undefined) return method.refused === method.trials ? 'refused' : 'none possible';
  const shown = percent(coverage);
  const share = method.intervals < method.trials ? ` of ${method.intervals.toLocaleString('en')}` : '';
  return `${isInBand(coverage) ? shown : `**${shown}**`}${share}`;
}

/** A remark explains a bold cell or a missing one, and stays away where all is well. */
function remarkFor(sizes: readonly MethodCoverage[]): string {
  const well = sizes.every((size) => {
    const coverage = coverageOf(size);
    return coverage !== undefined && isInBand(coverage) && size.intervals === size.trials;
  });
  return well ? '' : (sizes[0]!.remark ?? '');
}

function spreadInWords(): string {
  const { wall, wallChange, station, visit, reading, block, blockChange } = SPREAD;
  return `walls ${wall}, their changes ${wallChange}, stations ${station}, visits ${visit}, readings ${reading}; where there are blocks, blocks ${block} and their changes ${blockChange}`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
