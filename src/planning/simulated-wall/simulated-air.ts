import { evaporationFromPressure, moistureTransfer_kg_m2_s_pa } from '../../drying/index.js';
import { type Air, pressureDifference } from '../../moisture/index.js';
import { step_d } from './simulated-days.js';

const year_d = 365.25;
/** From 1 September to the warmest day. */
const warmest_d = 322;

/**
 * The air of a mild and damp climate beside walls in a house, week by week (common practice, no source): 11 °C and 80 % over the year, 8 °C
 * and 8 points up and down with the season, and what the weather adds.
 *
 * @param weather in standard deviations, of 1.5 °C
 */
export function airInWeek(week: number, season: 'yearly' | 'none', weather: number): Air {
  const swing = season === 'none' ? 0 : Math.cos((2 * Math.PI * (week * step_d - warmest_d)) / year_d);
  return { temperature_c: 11 + 8 * swing + 1.5 * weather, relativeHumidity_pct: 80 - 8 * swing };
}

/** What both faces of a wet wall give off to that air, mm of water a day. */
export function evaporationIn(air: Air): number {
  const faces = 2;
  return (
    faces * evaporationFromPressure(pressureDifference(air.temperature_c, air), moistureTransfer_kg_m2_s_pa.indoors)
  );
}
