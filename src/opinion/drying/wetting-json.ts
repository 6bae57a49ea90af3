import type { WettingPart } from './wetting-part.js';

/** The field `wetting` of `opinion.json`: by wall the days of arrival and the front, or the reason why there are none. */
export function wettingJson(wetting: WettingPart) {
  if (wetting.kind === 'not-shown') return { reason: wetting.reason };
  return {
    walls: wetting.walls.map(({ wall, firstDay, sensors, front }) => ({
      wall,
      firstDay,
      sensors: sensors.map((one) =>
        one.kind === 'arrived'
          ? { station: one.station, height_mm: one.height_mm, day: one.time_d, interval: [one.lower_d, one.upper_d] }
          : { station: one.station, height_mm: one.height_mm, day: null, reason: one.reason },
      ),
      front:
        front === undefined
          ? null
          : {
              startDay: front.start_d,
              startInterval: { ...front.startInterval },
              speed_mm_min05: front.speed,
              speedInterval: { ...front.interval },
              sorptivity_mm_min05: front.sorptivity.sorptivity,
              sorptivityInterval: { ...front.sorptivity.interval },
              moistureBehindFront: front.moistureBehindFront,
            },
    })),
  };
}
