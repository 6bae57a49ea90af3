import { mutationsOf } from '../mutation.mjs';

const air = [
  ...mutationsOf('src/moisture/air/evaporation-potential.ts', ['moisture/air/humid-air.test.ts', 'moisture/numbers-by-hand.test.ts'], [
    ['saturationPressure(surface_c, options) - vapourPressure(air, options)', 'vapourPressure(air, options) - saturationPressure(surface_c, options)'],
    ['(span_h * (from + to)) / 2', 'span_h * from'],
    ['mean_pa: area / hours,', 'mean_pa: area / readings.length,'],
    ['relativeHumidity_pct > 100)', 'relativeHumidity_pct >= 100)'],
    ['if (from <= 0 && to <= 0) return 1;', 'if (from <= 0 && to <= 0) return 0;'],
  ]),
  ...mutationsOf('src/moisture/air/humid-air.ts', 'moisture/air/humid-air.test.ts', [
    ['(relativeHumidity_pct / 100) *', 'relativeHumidity_pct *'],
    ['(1000 * vapourPressure(air, options))', '(100 * vapourPressure(air, options))'],
    ['(airPressure_pa - vapour_pa)', 'airPressure_pa'],
  ]),
  ...mutationsOf('src/moisture/air/saturation-pressure.ts', 'moisture/air/humid-air.test.ts', [
    ["temperature_c < 0);", "temperature_c > 0);"],
    ['(b_c * logRatio) / (a - logRatio)', '(b_c * logRatio) / (a + logRatio)'],
  ]),
];

const bases = [
  ...mutationsOf('src/moisture/basis/convert.ts', ['moisture/basis/convert.test.ts', 'moisture/numbers-by-hand.test.ts'], [
    ['1 - content.value / 100', '1 + content.value / 100'],
    ['1 / kept ** 2', '1 / kept'],
    ['1 / grown ** 2', '1 / grown'],
    ['dryDensity_kg_m3 / waterDensity_kg_m3', 'waterDensity_kg_m3 / dryDensity_kg_m3'],
    ['if (openPorosity_pct > 100)', 'if (openPorosity_pct > 1000)'],
    ['Math.hypot(standardUncertainty * factor, value * relativeUncertainty)', 'standardUncertainty * factor + value * relativeUncertainty'],
  ]),
  ...mutationsOf('src/moisture/gravimetric-moisture.ts', 'moisture/gravimetric-moisture.test.ts', [
    ['(wet_g - dry_g) / netDry_g', '(wet_g - dry_g) / (wet_g - container_g)'],
    ['value: 100 * fraction,', 'value: fraction,'],
    ['-netWet_g / netDry_g ** 2', '-netWet_g / netDry_g'],
  ]),
  ...mutationsOf('src/moisture/checked-quantity.ts', 'moisture/gravimetric-moisture.test.ts', [
    ['if (!(dry_g > container_g))', 'if (!(dry_g >= container_g))'],
  ]),
  ...mutationsOf('src/moisture/core-masses.ts', 'moisture/gravimetric-moisture.test.ts', [
    ['dry_g - wet_g > weighingNoise_g(weighing_g)', 'wet_g - dry_g > weighingNoise_g(weighing_g)'],
  ]),
  ...mutationsOf('src/moisture/moisture-readings.ts', ['moisture/moisture-readings.test.ts', 'moisture/numbers-by-hand.test.ts'], [
    ['value: 0 - value.value', 'value: value.value'],
    ['standardUncertainty: moisture.standardUncertainty * scale', 'standardUncertainty: moisture.standardUncertainty'],
  ]),
];

const budget = [
  ...mutationsOf('src/moisture/budget/gravimetric-budget.ts', 'moisture/budget/gravimetric-budget.test.ts', [
    ['const rectangular = Math.sqrt(3);', 'const rectangular = Math.sqrt(6);'],
    ['(errors.sampling.expected_pp ?? 0) + (errors.transport.expected_pp ?? 0)', '(errors.sampling.expected_pp ?? 0) - (errors.transport.expected_pp ?? 0)'],
  ]),
  ...mutationsOf('src/moisture/budget/gravimetric-batch.ts', 'moisture/budget/gravimetric-budget.test.ts', [
    ['drying_pct / Math.sqrt(3)', 'drying_pct / 3'],
    ['ofDrying ** 2 +', '0 * ofDrying +'],
    ['const ofDry = -factor * slopes.dry * weighing_g;', 'const ofDry = -factor * slopes.wet * weighing_g;'],
  ]),
  ...mutationsOf('src/moisture/budget/gravimetric-slopes.ts', 'moisture/budget/gravimetric-budget.test.ts', [
    ['dry: (-100 * ratio) / netDry_g,', 'dry: -100 / netDry_g,'],
    ['(100 * (ratio - 1)) / netDry_g', '(100 * ratio) / netDry_g'],
  ]),
  ...mutationsOf('src/moisture/budget/gravimetric-errors.ts', 'moisture/budget/gravimetric-budget.test.ts', [
    ['1 / (1 - (drilling?.expected_pct ?? 0) / 100)', '1 + (drilling?.expected_pct ?? 0) / 100'],
  ]),
];

const calibration = [
  ...mutationsOf('src/moisture/calibration/calibration-of-line.ts', 'moisture/calibration/calibration.test.ts', [
    ['(reading - intercept) / slope', '(reading + intercept) / slope'],
  ]),
  ...mutationsOf('src/moisture/calibration/calibration-pairs.ts', 'moisture/calibration/calibration.test.ts', [
    ['apart > toleranceDays || apart > daysApart', 'apart >= toleranceDays || apart > daysApart'],
    ['/ Math.sqrt(count)', '/ count'],
  ]),
  ...mutationsOf('src/moisture/calibration/instrument-drift.ts', 'moisture/calibration/calibration.test.ts', [
    ['checks.length - blocks.size - 1', 'checks.length - blocks.size'],
    ['(scatter * days) / Math.sqrt(xx)', '(scatter * days) / xx'],
  ]),
  ...mutationsOf('src/moisture/calibration/scatter-of-repeats.ts', ['moisture/calibration/limits.test.ts', 'moisture/calibration/calibration.test.ts'], [
    ['export const fewestRepeats = 10;', 'export const fewestRepeats = 9;'],
    ['variance(own) * (own.length - 1)', 'variance(own) * own.length'],
  ]),
  ...mutationsOf('src/moisture/calibration/reading-scale.ts', 'moisture/calibration/logarithmic-meter.test.ts', [
    ['return Math.log10(reading);', 'return Math.log(reading);'],
    ['readingUncertainty / (pair.reading * Math.LN10)', 'readingUncertainty / pair.reading'],
  ]),
];

const salts = [
  ...mutationsOf('src/moisture/hygroscopic/hygroscopic-moisture.ts', ['moisture/hygroscopic/hygroscopic-moisture.test.ts', 'moisture/numbers-by-hand.test.ts'], [
    ['(humid_g - container_g) / net_g', 'humid_g / net_g'],
    ['moisture.value - hygroscopic.value', 'hygroscopic.value - moisture.value'],
    ['(wet_g - humid_g) / net_g', '(humid_g - wet_g) / net_g'],
  ]),
  ...mutationsOf('src/moisture/hygroscopic/salt-load.ts', 'moisture/hygroscopic/worst-ion.test.ts', [
    ["content_pct < low ? 'low'", "content_pct <= low ? 'low'"],
    ["content_pct > high ? 'high'", "content_pct >= high ? 'high'"],
  ]),
  ...mutationsOf('src/moisture/hygroscopic/humid-condition.ts', 'moisture/hygroscopic/hygroscopic-moisture.test.ts', [
    ['apart_pp <= humidityTolerance_pp.value', 'apart_pp < humidityTolerance_pp.value'],
    ['<= temperatureTolerance_c.value', '< temperatureTolerance_c.value'],
  ]),
  ...mutationsOf('src/moisture/hygroscopic/deliquescence.ts', ['moisture/hygroscopic/deliquescence.test.ts', 'moisture/numbers-by-hand.test.ts'], [
    ['humidity_pct - measured_rh_pct)', 'humidity_pct + measured_rh_pct)'],
    ['apart_pp <= within_pp', 'apart_pp < within_pp'],
    ['(curve.b_k / (temperature_c + kelvinAtZero))', '(curve.b_k / temperature_c)'],
  ]),
  ...mutationsOf('src/moisture/hygroscopic/height-shape.ts', 'moisture/hygroscopic/height-pattern.test.ts', [
    ['({ difference_pp, reach_pp }) => difference_pp > reach_pp);', '({ difference_pp }) => difference_pp > 0);'],
    ["falling.length > 0) return { shape: 'falling' }", "falling.length > 0) return { shape: 'rising' }"],
    ['Math.abs(difference_pp) + reach_pp > relevant_pp', 'Math.abs(difference_pp) > relevant_pp'],
  ]),
];

const oven = [
  ...mutationsOf('src/moisture/oven/constant-mass.ts', ['moisture/oven/constant-mass.test.ts', 'moisture/numbers-by-hand.test.ts'], [
    ['Math.abs(one) <= rule.tolerance_pct', 'Math.abs(one) < rule.tolerance_pct'],
    ['changes.length === rule.weighings - 1 &&', 'changes.length >= rule.weighings - 2 &&'],
    ['later.time_h - earlier.time_h < rule.interval_h', 'later.time_h - earlier.time_h <= rule.interval_h'],
    ['(100 * (later.mass_g - earlier.mass_g))', '(100 * (earlier.mass_g - later.mass_g))'],
    ['(dry.mass_g - container_g) ** 2', '(dry.mass_g - container_g)'],
  ]),
  ...mutationsOf('src/moisture/oven/mass-still-to-lose.ts', 'moisture/oven/mass-still-to-lose.test.ts', [
    ['last_pct ** 2 / (before_pct - last_pct)', 'last_pct / (before_pct - last_pct)'],
    ['last_g / Math.expm1(rate * last_h)', 'last_g / Math.expm1(rate)'],
    ['if (last_g < 0)', 'if (last_g < -1)'],
  ]),
  ...mutationsOf('src/moisture/oven/oven-temperature.ts', ['moisture/oven/oven-temperature.test.ts', 'moisture/oven/constants.test.ts'], [
    ['temperature_c > hydratedSalts[salt].stableUpTo_c', 'temperature_c >= hydratedSalts[salt].stableUpTo_c'],
    ['temperature_c >= stable.temperature_c - stable.tolerance_c', 'temperature_c > stable.temperature_c - stable.tolerance_c'],
  ]),
  ...mutationsOf('src/moisture/oven/stated-tolerance.ts', ['moisture/oven/stated-tolerance.test.ts', 'moisture/oven/constants.test.ts'], [
    ['tolerance_pct <= loosest_pct', 'tolerance_pct < loosest_pct'],
  ]),
  ...mutationsOf('src/moisture/oven/crystal-water-error.ts', ['moisture/oven/hydrated-salts.test.ts', 'moisture/oven/judge-drying.test.ts'], [
    ['(ofDryMass / (1 - ofDryMass))', 'ofDryMass'],
  ]),
];

const places = [
  ...mutationsOf('src/moisture/potential/offset-of-reversals.ts', 'moisture/potential/potential.test.ts', [
    ['(asStated_mv - reversed_mv) / 2', '(asStated_mv + reversed_mv) / 2'],
    ['studentT(pairs.length - 1)', 'studentT(pairs.length)'],
  ]),
  ...mutationsOf('src/moisture/potential/electrical-series.ts', 'moisture/potential/potential.test.ts', [
    ['(after.time_s - before.time_s) / 2', 'after.time_s - before.time_s'],
    ['const value = voltage_v / current_a;', 'const value = current_a / voltage_v;'],
  ]),
  ...mutationsOf('src/moisture/potential/sign-change.ts', 'moisture/potential/potential.test.ts', [
    ['(1 - level) / 2 / visits.length', '(1 - level) / 2'],
    ["voltage_mv > 0 ? 'positive' : 'negative'", "voltage_mv > 0 ? 'negative' : 'positive'"],
  ]),
  ...mutationsOf('src/moisture/profile/clear-fall.ts', 'moisture/profile/profile.test.ts', [
    ['points.length - 2;', 'points.length - 1;'],
    ['const chanceOfFall = 0.05;', 'const chanceOfFall = 0.1;'],
  ]),
  ...mutationsOf('src/moisture/profile/stored-water.ts', 'moisture/profile/profile.test.ts', [
    ['share * beyond_mm) / 1e5', 'share * beyond_mm) / 1e6'],
    ['(one.to + next.from) / 2', 'one.to'],
    ['thickness_mm - deepest.to', 'thickness_mm - deepest.from'],
  ]),
  ...mutationsOf('src/moisture/profile/wall-map.ts', 'moisture/profile/profile.test.ts', [
    ['Math.min(cell.n, first.n)', 'Math.max(cell.n, first.n)'],
    ['cell.value - first.value', 'first.value - cell.value'],
  ]),
  ...mutationsOf('src/moisture/reused/reused-core-moisture.ts', 'moisture/reused/reused-core-moisture.test.ts', [
    ['100 * (mass_g / first_g - 1)', '100 * (mass_g / first_g)'],
    ['value_pct - apparent_pct', 'apparent_pct - value_pct'],
  ]),
  ...mutationsOf('src/moisture/reused/dry-mass-at-visits.ts', ['moisture/reused/reused-core-moisture.test.ts', 'moisture/numbers-by-hand.test.ts'], [
    ['/ Math.sqrt(12)', '/ Math.sqrt(3)'],
    ['one > before.at && one <= after.at', 'one >= before.at && one <= after.at'],
  ]),
  ...mutationsOf('src/moisture/agreement/tracked-change.ts', ['findings/instruments/instruments.test.ts', 'moisture/numbers-by-hand.test.ts'], [
    ['/ Math.sqrt(walls - 3)', '/ Math.sqrt(walls)'],
  ]),
];

export const moistureList = [...air, ...bases, ...budget, ...calibration, ...salts, ...oven, ...places];
