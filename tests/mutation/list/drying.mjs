import { mutationsOf } from '../mutation.mjs';

const evaporation = [
  ...mutationsOf('src/drying/ceiling/evaporation-ceiling.ts', ['drying/wetting-and-ceiling.test.ts', 'drying/evaporation-and-wait.test.ts'], [
    ['(100 * evaporation_mm_d * period_d)', '(evaporation_mm_d * period_d)'],
    ['(thickness_mm / 1000) * density_kg_m3);', '(thickness_mm / 100) * density_kg_m3);'],
    ['const secondsInDay = 86_400;', 'const secondsInDay = 3_600;'],
  ]),
  ...mutationsOf('src/drying/ceiling/evaporation-implied.ts', 'drying/evaporation-and-wait.test.ts', [
    ['(fall_pp / 100) *', 'fall_pp *'],
    ['lost_kg_m2 / period_d', 'lost_kg_m2 * period_d'],
  ]),
  ...mutationsOf('src/drying/ceiling/natural-drying-prompt.ts', 'drying/wetting-and-ceiling.test.ts', [
    ['(thickness_mm / 25) * daysInMonth', '(thickness_mm / 25) * 30'],
  ]),
  ...mutationsOf('src/drying/ceiling/wait-for-margin.ts', 'drying/evaporation-and-wait.test.ts', [
    ['(faces * evaporationFromPressure(', '(evaporationFromPressure('],
    ['fallingStageFactor * least_d', 'least_d'],
  ]),
  ...mutationsOf('src/drying/ceiling/assumed-values.ts', ['drying/evaporation-and-wait.test.ts', 'findings/drying/drying-facts.test.ts', 'drying/numbers-by-hand.test.ts'], [
    ['mostEvaporationUnrecorded_mm_d = 1.5', 'mostEvaporationUnrecorded_mm_d = 1.6'],
    ['evaporationInSun_mm_d = 3.5', 'evaporationInSun_mm_d = 3.6'],
    ['winterPressure_pa = 100', 'winterPressure_pa = 105'],
    ['fallingStageFactor = 4', 'fallingStageFactor = 4.1'],
    ['indoors: 25e-9', 'indoors: 26e-9'],
    ['outdoors: 75e-9', 'outdoors: 76e-9'],
    ['thickness_mm: 600', 'thickness_mm: 610'],
    ['density_kg_m3: 1700', 'density_kg_m3: 1720'],
  ]),
];

const rates = [
  ...mutationsOf('src/drying/rates/drying-index.ts', 'drying/rates.test.ts', [
    ['((until - from) * (high + last)) / 2', '(until - from) * high'],
    ['area / (first * period_d)', 'area / period_d'],
    ['start_d + period_d <= end_d', 'start_d + period_d < end_d'],
  ]),
  ...mutationsOf('src/drying/rates/drying-models.ts', 'drying/rates.test.ts', [
    ['wet - rate * Math.sqrt(time_d)', 'wet - rate * Math.cbrt(time_d)'],
    ['dry + (wet - dry) * Math.exp(-rate * time_d)', 'dry + wet * Math.exp(-rate * time_d)'],
    ['(-rate * (time_d - change_d)) / above', '(-rate * time_d) / above'],
  ]),
  ...mutationsOf('src/drying/rates/drying-of-curve.ts', ['drying/rates.test.ts', 'drying/numbers-by-hand.test.ts'], [
    ['const indistinguishable = 2;', 'const indistinguishable = 3;'],
    ['upperQuantile(0.025) * standardError', 'upperQuantile(0.25) * standardError'],
    ['(fit.weight / whole) * fit', 'fit.weight * fit'],
    ['if (moistureAt(0) <= moisture) return 0;', 'if (moistureAt(0) < moisture) return 0;'],
  ]),
  ...mutationsOf('src/drying/rates/fit-drying-model.ts', ['drying/rates.test.ts', 'drying/numbers-by-hand.test.ts'], [
    ['const fewestReadings = 4;', 'const fewestReadings = 5;', 'with four readings the corrected criterion of the smallest shape does not exist, and the fit is refused for that'],
    ['((above[name] ?? 0) - (below[name] ?? 0)) / 2', '(above[name] ?? 0) - (below[name] ?? 0)'],
  ]),
  ...mutationsOf('src/drying/rates/specimen-drying-rates.ts', ['drying/rates.test.ts', 'drying/numbers-by-hand.test.ts'], [
    ['d2.estimate / (2 * Math.sqrt(bent.bend))', 'd2.estimate / Math.sqrt(bent.bend)'],
    ['{ level, lower: -upper, upper: -lower }', '{ level, lower: -lower, upper: -upper }'],
  ]),
];

const times = [
  ...mutationsOf('src/drying/time-to-dry/time-to-dry.ts', ['drying/time-to-dry.test.ts', 'drying/numbers-by-hand.test.ts'], [
    ['(value) => value > limit', '(value) => value >= limit'],
    ['times_d[lastWet + 1]', 'times_d[lastWet]'],
    ['(after_d + by_d) / 2', 'by_d'],
    ['if (by_d !== undefined && by_d <= after_d)', 'if (by_d !== undefined && by_d < after_d)'],
  ]),
];

const wetting = [
  ...mutationsOf('src/drying/wetting/front-height.ts', ['drying/wetting-and-ceiling.test.ts', 'drying/numbers-by-hand.test.ts'], [
    ["line === 'through-origin' ? 2 : 3", "line === 'through-origin' ? 3 : 3"],
    ['sorptivity: slope * value,', 'sorptivity: slope,'],
    ['(slope * value) / joined(interval.lower, lower)', '(slope * value) * joined(interval.lower, lower)'],
  ]),
  ...mutationsOf('src/drying/wetting/rising-front.ts', 'drying/wetting-and-ceiling.test.ts', [
    ['const minutesInDay = 1440;', 'const minutesInDay = 24;'],
    ['if (arrivals.length < 3)', 'if (arrivals.length < 4)'],
  ]),
  ...mutationsOf('src/drying/wetting/sensor-arrival.ts', ['drying/wetting-and-ceiling.test.ts', 'findings/drying/wetting.test.ts', 'drying/arrival-limit.test.ts'], [
    ['const plainStep = 5;', 'const plainStep = 6;'],
    ['step.statistic <= -plainStep', 'step.statistic >= -plainStep'],
  ]),
  ...mutationsOf('src/drying/wetting/sharp-front.ts', 'drying/wetting-and-ceiling.test.ts', [
    ['thickness_mm / (2 * evaporation_mm_min * theta)', 'thickness_mm / (evaporation_mm_min * theta)'],
    ['Math.log(1 - 0.81) / 2', 'Math.log(1 - 0.9) / 2'],
    ['-2 * time_d * minutesInDay', '-time_d * minutesInDay'],
  ]),
  ...mutationsOf('src/drying/wetting/evaporating-front.ts', 'drying/evaporating-front.test.ts', [
    ['loss_per_d: bend / (2 * slope)', 'loss_per_d: bend / slope'],
    ['-Math.log1p(-bend * square) / bend', 'Math.log1p(bend * square) / bend'],
    ['loss_per_d * thickness_mm * moistureBehindFront', 'loss_per_d * thickness_mm'],
  ]),
  ...mutationsOf('src/drying/wetting/steady-before.ts', ['drying/wetting-and-ceiling.test.ts', 'findings/drying/drying-facts.test.ts', 'drying/numbers-by-hand.test.ts'], [
    ['times_d.map((time) => time / 30)', 'times_d.map((time) => time / 31)'],
    ['if (curves.length < 2)', 'if (curves.length < 3)'],
  ]),
];

export const dryingList = [...evaporation, ...rates, ...times, ...wetting];
