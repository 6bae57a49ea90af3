import { mostDaysApart } from '../../analysis/index.js';
import { describeSeriesChart, type SeriesChartData, type SeriesWindow, seriesChart } from '../../charts/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { decimalsFor, formatNumber, formatPValue, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import { type Figure, type Line, paragraph, type Section, type Table } from '../document.js';
import { dayText, intervalText, outcomeDecimals } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';

/** Two walls, visit by visit: how far apart they stood before and after, and what their series says against itself. */
export function seriesSection(opinion: Opinion): Section | undefined {
  const { series: found, primary } = opinion;
  if (found?.checks === undefined || primary.kind !== 'estimated') return undefined;
  const { series, checks } = found;
  const places =
    series.matchedPlaces === 0
      ? 'Their means over their stations are compared'
      : `They are compared at the ${countInWords(series.matchedPlaces, 'height and depth', 'heights and depths')} that both have`;
  const isOfTwo = primary.estimate.walls.treated + primary.estimate.walls.untreated === 2;
  const apart =
    series.visitsApart === 0 ? '' : `, ${series.visitsApart} of them with readings up to ${mostDaysApart} days apart`;
  return {
    id: 'series',
    heading: `The ${isOfTwo ? 'two ' : ''}walls, visit by visit`,
    blocks: [
      paragraph(
        `With one wall ${isOfTwo ? 'an arm' : 'in an arm'} there is no replication, so wall-to-wall variation cannot be estimated. What can be followed is how far ${isOfTwo ? 'these two' : 'it and the mean of the others'} stood apart, visit by visit. ${isOfTwo ? 'Both' : 'All'} were read at ${series.visits.length} visits inside the windows${apart}. ${places}. Whatever moves both alike cancels out. Whatever moves only one of them does not, and looks like an effect.`,
      ),
      figure(opinion, checks.levels),
      checksTable(opinion),
      paragraph(
        `Placebo dates are days before the treatment at which nothing was done; the same test is tried at ${countInWords(checks.placebo.length, 'date')} that ${checks.placebo.length === 1 ? 'leaves' : 'leave'} at least four visits on either side. At a level of ${levelInWords(opinion.protocol.confidence)} it should raise an alarm at about one in ${formatNumber(1 / (1 - opinion.protocol.confidence), 0)} of them. Neighbouring dates share most visits, so that alarms come in runs. Of many dates one is likely to raise an alarm by chance: the smallest p-value of all, times the number of dates, says whether it is more than that.`,
      ),
    ],
  };
}

type Found = NonNullable<Opinion['series']>;
type Levels = NonNullable<Found['checks']>['levels'];

function figure({ protocol, series: found, timeline }: Opinion, levels: Levels): Figure {
  const { quantity, unit } = protocol.outcome;
  const { treated, untreated, visits } = (found as Found).series;
  const windowOf = (name: 'before' | 'after'): SeriesWindow => ({
    visits: visits.filter(({ window }) => window === name),
    mean: levels[name].estimate,
    lower: levels[name].interval.lower,
    upper: levels[name].interval.upper,
  });
  const data: SeriesChartData = {
    title: 'How far apart the two walls stood',
    quantity,
    unit,
    treated: treated.wall,
    untreated: untreated.wall,
    before: windowOf('before'),
    after: windowOf('after'),
    marks: timeline.treatedDays.map(({ day }) => ({ day, label: 'treatment' })),
    level: protocol.confidence,
  };
  return {
    kind: 'figure',
    caption: `${treated.wall} (treated) less ${untreated.wall} (untreated), ${quantity} in ${unit}. The step from the one level to the other is the primary difference.`,
    charts: [
      {
        wide: seriesChart(data),
        narrow: seriesChart(data, { width: narrowWidth }),
        description: describeSeriesChart(data),
      },
    ],
  };
}

function checksTable(opinion: Opinion): Table {
  const { protocol } = opinion;
  const { series, checks } = opinion.series as Found;
  const { levels, correlation, visits, effectiveVisits, trendPer30Days, placebo, placeboPValue } =
    checks as NonNullable<Found['checks']>;
  const { unit } = protocol.outcome;
  const decimals = outcomeDecimals(opinion);
  const level = levelInWords(protocol.confidence);
  const [first, last] = [series.visits.at(0)?.day ?? '', series.visits.at(-1)?.day ?? ''];
  const row = (name: string, value: string): readonly Line[] => [[name], [value]];
  const levelRow = (name: 'before' | 'after') =>
    row(
      `Level ${name}, treated less untreated`,
      `${formatSigned(levels[name].estimate, decimals)} ${unit} (${level} interval ${intervalText(levels[name].interval, decimals)})`,
    );
  const fine = decimalsFor((trendPer30Days.interval.upper - trendPer30Days.interval.lower) / 2);
  return {
    kind: 'table',
    caption: 'The series of the two walls, and what it says of itself',
    columns: [{ header: 'What' }, { header: 'Value' }],
    rows: [
      row('First and last common visit', `${dayText(first)} and ${dayText(last)}`),
      levelRow('before'),
      levelRow('after'),
      row('Autocorrelation from visit to visit', formatNumber(correlation, 2)),
      row(
        `What the ${visits} visits of the shorter window are worth`,
        `${formatNumber(effectiveVisits, 1)} independent visits`,
      ),
      row(
        'Trend before the treatment, in 30 days',
        `${formatSigned(trendPer30Days.estimate, fine)} ${unit} (${level} interval ${intervalText(trendPer30Days.interval, fine)})`,
      ),
      row(
        'Placebo dates with a false alarm',
        `${placebo.filter(({ isAlarm }) => isAlarm).length} of ${placebo.length} (all together: ${formatPValue(placeboPValue)})`,
      ),
    ],
  };
}
