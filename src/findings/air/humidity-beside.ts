import { isoDay } from '../../plain/days.js';
import { valuesBy } from '../../plain/group-by.js';
import { mean } from '../../statistics/index.js';
import { type ClimateReading, isInWindow, relativeHumidityAsCounted, type Trial } from '../../trial/index.js';
import { placesBeside } from './places-beside.js';
import { usableAir } from './usable-air.js';

/**
 * The mean relative humidity of the air that stood for a wall in a window, in percent, each place counting once; undefined where none was
 * recorded. What a hygrometer shows above 100 % counts as 100 %.
 */
export function humidityBeside(trial: Trial): (wall: string, window: 'before' | 'after') => number | undefined {
  const { windows } = trial.protocol;
  const ofWindow = (window: 'before' | 'after') => {
    const humidityOf = (reading: ClimateReading): number | undefined => {
      const air = usableAir(reading);
      const isCounted = windows !== undefined && isInWindow(isoDay(reading.time), windows[window]);
      return air === undefined || !isCounted ? undefined : relativeHumidityAsCounted(air.relativeHumidity_pct);
    };
    const places = valuesBy(trial.climate, ({ place }) => place, humidityOf);
    const beside = placesBeside(trial.walls, [...places.keys()]);
    return (wall: string) => {
      const own = (beside(wall)?.places ?? []).map((place) => mean(places.get(place) ?? []));
      return own.length === 0 ? undefined : mean(own);
    };
  };
  const found = { before: ofWindow('before'), after: ofWindow('after') };
  return (wall, window) => found[window](wall);
}
