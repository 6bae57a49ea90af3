import type { TwoWallSeries } from './two-wall-series.js';

/** The field `series` of `opinion.json`: the differences at each visit, and what the series says of itself. */
export function seriesJson({ series, checks }: TwoWallSeries) {
  const { treated, untreated, visits, visitsApart, matchedPlaces } = series;
  return {
    treated: treated.wall,
    untreated: untreated.wall,
    matchedPlaces,
    visitsApart,
    visits: visits.map(({ day, window, difference }) => ({ day, window, difference })),
    autocorrelation: checks?.correlation ?? null,
    effectiveVisits: checks?.effectiveVisits ?? null,
    trendPer30Days:
      checks === undefined
        ? null
        : { estimate: checks.trendPer30Days.estimate, interval: { ...checks.trendPer30Days.interval } },
    placeboDates:
      checks === undefined
        ? null
        : {
            dates: checks.placebo.length,
            alarms: checks.placebo.filter(({ isAlarm }) => isAlarm).length,
            pValue: checks.placeboPValue,
          },
  };
}
