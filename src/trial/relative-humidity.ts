/**
 * The most that a hygrometer may show, in percent: near saturation capacitive sensors read up to a few points too much (common practice, no
 * source; the bound is our convention). Above it the sensor has failed.
 */
export const mostHumidityShown_pct = 105;

/** To be printed where readings count by it. */
export const mostHumidityShownMark = 'common practice, no source';

/**
 * A relative humidity as it counts, in percent: air holds no more than 100 %, so that what a sensor shows above it is its error.
 *
 * @example relativeHumidityAsCounted(102.3) // 100
 */
export function relativeHumidityAsCounted(shown_pct: number): number {
  return Math.min(100, shown_pct);
}
