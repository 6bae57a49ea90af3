import type { AdjustedCoverage } from './adjusted-trials.js';
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
  /** Where a season lies in the readings. */
  readonly adjusted: readonly AdjustedCoverage[];
}

/** The committed table, from the committed counts. */
export function dryingTable({ source, runs, adjusted }: DryingFile): string {
  const trials = runs[0]?.methods[0]?.trials.toLocaleString('en-GB');
  const lines = runs.flatMap(({ design, walls, methods }) =>
    methods.map(({ label, held, intervals, trials: all, meanHalfWidth }) => {
      const share = held / intervals;
      const coverage = `${(100 * share).toFixed(1)} %`;
      const shown = isInBand(share) ? coverage : `**${coverage}**`;
      const of = intervals === all ? '' : ` of ${intervals.toLocaleString('en-GB')}`;
      return `| ${designText(design)} | ${walls} | ${label} | ${shown}${of} | ${Math.exp(meanHalfWidth).toFixed(2)} |`;
    }),
  );
  return `# Coverage of 95 % intervals of a ratio of drying rates

Made by ${source}; not edited by hand. ${trials} simulated trials a row, so that a coverage of 95 % has a standard error of
${(100 * Math.sqrt((0.95 * 0.05) / (runs[0]?.methods[0]?.trials ?? 1))).toFixed(2)} points. Each trial: half of the walls dry at 1.5 times the rate of the others, along exponentials, three stations a wall,
read twelve times in 297 days. Standard deviations: logarithms of the walls' rates 0.25 (pairs of walls share 0.20 more), what
walls lose 1.5 of 7, what they keep 1, stations 0.8, a wall's visits 0.2, readings 0.4, all but the rates in per cent by mass.

Coverage from 93.5 % to 96.5 % is taken as right; what is outside is in bold. "Factor" is the mean factor from the estimate to
a limit: of two methods that cover alike the one with the smaller is the better.

| design | walls | method | coverage | factor |
| --- | ---: | --- | ---: | ---: |
${lines.join('\n')}

## With a yearly cycle in the readings

All walls share a cycle of 0.7 % by mass either way. Ratios: rates of 0.006 a day, 1.5 times that in treated walls, fourteen visits in 546
days, one mean a wall and visit (walls' visits scatter by 0.3), the rest as above. Differences: treated walls change by 1.5 less;
four visits in either window, and treated walls read three weeks later in the second one, so that the season stands between
the arms; walls' changes scatter by 0.8 (pairs share 0.6 more). "Half width" is that of the interval, of a ratio as a factor.

| design | walls | method | coverage | half width |
| --- | ---: | --- | ---: | ---: |
${adjusted.map(adjustedLine).join('\n')}

With four pairs the interval of the ratio adjusted for a yearly cycle is longer than it need be: so few pairs hardly show how much
pairs share, and what they share then stays in the interval. It errs to the safe side.
`;
}

function adjustedLine({ id, label, design, walls, held, intervals, trials, meanHalfWidth }: AdjustedCoverage): string {
  const share = held / intervals;
  const coverage = `${(100 * share).toFixed(1)} %`;
  const shown = isInBand(share) ? coverage : `**${coverage}**`;
  const of = intervals === trials ? '' : ` of ${intervals.toLocaleString('en-GB')}`;
  const half = id.startsWith('rate-ratio') ? Math.exp(meanHalfWidth) : meanHalfWidth;
  return `| ${designText(design)} | ${walls} | ${label} | ${shown}${of} | ${half.toFixed(2)} |`;
}

function designText(design: DryingDesign): string {
  return design === 'pairs' ? 'pairs' : 'no blocks';
}

export function isInBand(coverage: number): boolean {
  return coverage >= 0.935 && coverage <= 0.965;
}
