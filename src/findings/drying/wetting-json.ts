import { reasonInWords } from '../../labels/index.js';
import type { FrontOfWall, WettingPart } from './wetting-part.js';

/** The field `wetting` of `opinion.json`: by wall the days of arrival and the front, or the reason why there are none. */
export function wettingJson(wetting: WettingPart) {
  if (wetting.kind === 'not-shown') return { reason: reasonInWords(wetting.reason) };
  return {
    walls: wetting.walls.map(({ wall, firstDay, sensors, front }) => ({
      wall,
      firstDay,
      sensors: sensors.map((one) =>
        one.kind === 'arrived'
          ? { station: one.station, height_mm: one.height_mm, day: one.time_d, interval: [one.lower_d, one.upper_d] }
          : { station: one.station, height_mm: one.height_mm, day: null, reason: reasonInWords(one.reason) },
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
              moistureBehindFront: front.moistureBehindFront.value,
              moistureFrom: front.moistureBehindFront.from,
              rootTime: rootTimeJson(front),
              withEvaporation: evaporatingJson(front),
            },
    })),
  };
}

function rootTimeJson({ rootTime }: FrontOfWall) {
  if (rootTime === undefined) return null;
  const { curvature, interval, pValue, isBent } = rootTime;
  return { curvature_d_m4: curvature, interval: { ...interval }, pValue, isBent };
}

function evaporatingJson({ evaporating }: FrontOfWall) {
  if (evaporating === undefined) return null;
  const { speed, interval, sorptivity, rest, evaporation_mm_d } = evaporating;
  return {
    speed_mm_min05: speed,
    speedInterval: { ...interval },
    sorptivity_mm_min05: sorptivity.sorptivity,
    sorptivityInterval: { ...sorptivity.interval },
    restHeight_mm: rest?.height_mm ?? null,
    restBetween_mm: rest === undefined ? null : [rest.lowest_mm, rest.highest_mm ?? null],
    evaporation_mm_d: evaporation_mm_d ?? null,
  };
}
