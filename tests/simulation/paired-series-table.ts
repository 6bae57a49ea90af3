import type { SeriesCell, SeriesCount } from './paired-series-trials.js';

export interface PairedSeriesFile {
  readonly source: string;
  readonly runs: readonly ({ readonly cell: SeriesCell } & SeriesCount)[];
}

/** The committed table, from the committed counts. */
export function pairedSeriesTable({ source, runs }: PairedSeriesFile): string {
  const trials = runs[0]?.trials ?? 1;
  const methods = runs[0]?.methods ?? [];
  const coverage = runs.map((run) => {
    const cells = run.methods.map(({ held, intervals, meanHalfWidth }) => {
      const few = intervals < run.trials ? ` of ${intervals.toLocaleString('en-GB')}` : '';
      return `${inPercent(held / intervals)}${few} | ${meanHalfWidth.toFixed(2)}`;
    });
    return `| ${placeOf(run.cell)} | ${cells.join(' | ')} |`;
  });
  const checks = runs.flatMap(({ cell, checks: { series, dates, alarms, plainAlarms, drifting } }) => {
    if (series === 0) return [];
    const share = (part: number, of: number) => `${((100 * part) / of).toFixed(1)} %`;
    const cells = [dates / series, share(alarms, dates), share(plainAlarms, series), share(drifting, series)];
    return `| ${placeOf(cell)} | ${cells.join(' | ')} |`;
  });
  const checked = Math.max(1, ...runs.map((run) => run.checks.series));
  const heads = methods.map(({ label }) => `${label} | half`).join(' | ');
  return `# Two walls: coverage of 95 % intervals of a change

Made by ${source}; not edited by hand. ${trials.toLocaleString('en-GB')} simulated series a row, so that a coverage of 95 % has a standard error of
${(100 * Math.sqrt((0.95 * 0.05) / trials)).toFixed(2)} points. Each series: the difference of two walls at evenly spaced visits, so many in either window, no change, a standard
deviation of 1, and the stated autocorrelation between neighbouring visits; in later rows noise on top, with the stated standard deviation. In the last four nothing
was done to the walls and yet they move: "season" is the height of a yearly wave that one wall has and the other has not (visits a fortnight apart), "drift" how far they come apart
from the first visit to the last. An interval that misses the truth there is a false effect.

Coverage from 93.5 % to 96.5 % is taken as right; what is outside is in bold. "Half" is the mean half-length of the interval. "of":
the other series have no best-fitting autocorrelation below 1.

| visits a window | autocorrelation | ${heads} |
| ---: | --- | ${methods.map(() => '---: | ---:').join(' | ')} |
${coverage.join('\n')}

Averaging over the autocorrelation keeps its promise in every row without noise, from 8 visits a window on; the best-fitting
autocorrelation does so too, but often there is none, and its intervals are longer where visits are few. Newey and West's falls short as soon
as visits resemble each other, and taking visits as independent fails altogether. No method keeps its promise where noise hides a strong
autocorrelation: that is a weakness in the opinion. Nor does any allow for a drift, which with two walls looks like a treatment; a season of one wall
alone makes most intervals longer. The verdict speaks of these two walls, and the evidence is never better than shaky. The opinion asks for 12 visits a window, because 8 before leave a single
placebo date and hardly show a trend.

## False alarms of the checks

What the opinion's checks say against every fourth of these series, in which nothing happened. Placebo dates: each date in the before window
with four visits on either side, by the first method; "plain alarm", which is a weakness: the smallest p-value of all dates, times their
number, is below 5 %. "Drift before", a weakness too: the interval of the trend in the before window leaves out zero. ${checked.toLocaleString('en-GB')} series a row: a share of 5 % has a standard error of ${(100 * Math.sqrt((0.95 * 0.05) / checked)).toFixed(1)} points.

| visits in the window | autocorrelation | dates | alarms | plain alarm | drift before |
| ---: | --- | ---: | ---: | ---: | ---: |
${checks.join('\n')}
`;
}

function placeOf({ visits, correlation, noise, season, drift }: SeriesCell): string {
  const further = [
    ...(noise > 0 ? [`noise ${noise}`] : []),
    ...(season === undefined ? [] : [`season ${season}`]),
    ...(drift === undefined ? [] : [`drift ${drift}`]),
  ];
  return `${visits} | ${[correlation, ...further].join(', ')}`;
}

function inPercent(share: number): string {
  const text = `${(100 * share).toFixed(1)} %`;
  return isInBand(share) ? text : `**${text}**`;
}

export function isInBand(coverage: number): boolean {
  return coverage >= 0.935 && coverage <= 0.965;
}
