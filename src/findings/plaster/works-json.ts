import { reasonInWords } from '../../labels/index.js';
import type { Interval } from '../../statistics/index.js';
import type { InjectionOfTrial } from '../injection/injection-of-trial.js';
import type { LaterYear } from '../later-years/later-years.js';
import type { PlasterOfTrial } from './plaster-of-trial.js';

/** The comparison in each year beyond the plan's after window, for `opinion.json`. */
export function laterYearsJson(years: readonly LaterYear[]) {
  return years.map(({ year, days, readings, answer, walls }) => ({
    ...{ year, from: days.from, to: days.to, readings },
    ...(answer.kind === 'estimated'
      ? {
          estimate: answer.estimate.estimate,
          interval: intervalOf(answer.estimate.interval),
          reason: null,
        }
      : { estimate: answer.difference ?? null, interval: null, reason: reasonInWords(answer.reason) }),
    walls: walls.map(({ wall, side, before, after }) => ({ wall, side, before: before ?? null, mean: after })),
  }));
}

/** Work on plaster, for `opinion.json`. */
export function plasterJson({ walls, bySide, apart, daysApart, readings, after }: PlasterOfTrial) {
  return {
    bySide: { treated: { ...bySide.treated }, untreated: { ...bySide.untreated } },
    ...{ apart, daysApart: daysApart ?? null },
    walls: walls.map(({ wall, side, stripped, renewed }) => ({
      ...{ wall, side },
      stripped: [...stripped],
      renewed: [...renewed],
    })),
    readings: readings.map((one) => ({ ...one })),
    after: { ...after },
  };
}

/** What was injected, for `opinion.json`. */
export function injectionJson({ walls, notOnRecord, lots, doses, leastShare, response }: InjectionOfTrial) {
  return {
    walls: walls.map((one) => ({
      ...{ wall: one.wall, side: one.side, first: one.first, last: one.last, litres_per_m: one.litres_per_m },
      planned_litres_per_m: one.plannedLitres_per_m ?? null,
      lots: [...one.lots],
      spacing_mm: one.spacing_mm ?? null,
      depth_mm: one.depth_mm ?? null,
      moisture_pct: one.moisture_pct ?? null,
    })),
    notOnRecord: [...notOnRecord],
    lots: [...lots],
    doses: { ...doses },
    leastShareOfPlanned: leastShare ?? null,
    response:
      response.kind === 'estimated'
        ? {
            ...{ slope: response.estimate, interval: intervalOf(response.interval), pValue: response.pValue },
            ...{ walls: response.walls, reason: null },
          }
        : { slope: null, interval: null, pValue: null, walls: null, reason: reasonInWords(response.reason) },
  };
}

function intervalOf({ level, lower, upper }: Interval) {
  return { level, lower, upper };
}
