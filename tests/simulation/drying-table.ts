import type { DryingCoverage, DryingDesign } from './drying-trials.js';

export interface DryingRun {
  readonly design: DryingDesign;
  readonly walls: number;
  readonly seed: number;
  readonly methods: readonly DryingCoverage[];
}

export interface DryingFile {
  readonly source: string;
  readonly runs: readonly DryingRun[];
}

/** The committed table, from the committed counts. */
export function dryingTable({ source, runs }: DryingFile): string {
  const trials = runs[0]?.methods[0]?.trials.toLocaleString('en-GB');
  const lines = runs.flatMap(({ design, walls, methods }) =>
    methods.map(({ label, held, intervals, trials: all, meanHalfWidth }) => {
      const share = held / intervals;
      const coverage = `${(100 * share).toFixed(1)} %`;
      const shown = isInBand(share) ? coverage : `**${coverage}**`;
      const of = intervals === all ? '' : ` of ${intervals.toLocaleString('en-GB')}`;
      return `| ${design === 'pairs' ? 'pairs' : 'no blocks'} | ${walls} | ${label} | ${shown}${of} | ${Math.exp(meanHalfWidth).toFixed(2)} |`;
    }),
  );
  return `# Do 95 % intervals of a ratio of drying rates hold the truth 95 times in 100?

Made by ${source}; not edited by hand. ${trials} simulated trials a row, so that a coverage of 95 % has a standard error of
${(100 * Math.sqrt((0.95 * 0.05) / (runs[0]?.methods[0]?.trials ?? 1))).toFixed(2)} points. Each trial: half of the walls dry at 1.5 times the rate of the others, along exponentials, three stations a wall,
read twelve times in 297 days. Standard deviations: logarithms of the walls' rates 0.25 (pairs of walls share 0.20 more), what
walls lose 1.5 of 7, what they keep 1, stations 0.8, a wall's visits 0.2, readings 0.4, all but the rates in per cent by mass.

Coverage from 93.5 % to 96.5 % is taken as right; what is outside is in bold. "Factor" is the mean factor from the estimate to
a limit: of two methods that cover alike the one with the smaller is the better.

| design | walls | method | held the truth | factor |
| --- | ---: | --- | ---: | ---: |
${lines.join('\n')}
`;
}

export function isInBand(coverage: number): boolean {
  return coverage >= 0.935 && coverage <= 0.965;
}
