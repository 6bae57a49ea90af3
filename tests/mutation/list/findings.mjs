import { mutationsOf } from '../mutation.mjs';

const air = [
  ...mutationsOf('src/findings/air/air-of-arms.ts', 'findings/air/air-of-arms.test.ts', [
    ['ratio < limits.airRatioLeast.value ||', 'ratio <= limits.airRatioLeast.value ||'],
    ['ratio > limits.airRatioMost.value', 'ratio >= limits.airRatioMost.value'],
    ['treated.after_pa / treated.before_pa / (untreated', 'treated.after_pa / treated.before_pa * (untreated'],
    ['shared >= limits.underOneRoof.value * walls.length', 'shared > limits.underOneRoof.value * walls.length'],
    ['recorded >= limits.airOfWalls.value * own.length', 'recorded > limits.airOfWalls.value * own.length'],
  ]),
  ...mutationsOf('src/findings/air/usable-air.ts', 'findings/air/usable-air.test.ts', [
    ['temperature_c >= -45', 'temperature_c > -45'],
    ['temperature_c <= 60', 'temperature_c < 60'],
    ['!(relative_humidity_pct > 0 &&', '!(relative_humidity_pct >= 0 &&'],
  ]),
];

const answers = [
  ...mutationsOf('src/findings/answer/relative-change.ts', 'findings/relative-change.test.ts', [
    ['degreesOfFreedom: walls - 1 }', 'degreesOfFreedom: walls }'],
    ['covariance: covariance(changes, befores) / walls', 'covariance: 0 * walls'],
    ['(100 * numerator) / denominator', 'numerator / denominator'],
    ['(x.length - 1);', 'x.length;'],
    ['(untreated.length - 1));', 'untreated.length);'],
    ['lower: 100 * interval.lower', 'lower: interval.lower'],
  ]),
  ...mutationsOf('src/findings/answer/relative-in-blocks.ts', 'findings/relative-change.test.ts', [
    ['walls.length - blocks.length - 1;', 'walls.length - blocks.length;'],
    ['const shared = 1 / treated.length;', 'const shared = 1 / walls.length;'],
  ]),
  ...mutationsOf('src/findings/answer/side-changes.ts', 'findings/answer/changes-of-arms.test.ts', [
    ['sum + arm.change * arm.walls, 0) / walls', 'sum + arm.change, 0) / chosen.length'],
    ['arm.side === side && arm.before !== undefined', 'arm.side === side'],
  ]),
  ...mutationsOf('src/findings/answer/changes-of-arms.ts', 'findings/answer/changes-of-arms.test.ts', [
    ['- sign * margin', '+ sign * margin'],
    ['sign * (one.change - other.change)', 'sign * (other.change - one.change)'],
    ['unitOf.get(wall) ?? wall', 'wall'],
  ]),
];

const cores = [
  ...mutationsOf('src/findings/cores/mean-of-walls.ts', ['findings/cores/cores-and-air.test.ts', 'findings/units-of-trade.test.ts'], [
    ['studentT(walls - 1)', 'studentT(walls)'],
    ['/ Math.sqrt(walls);', '/ walls;'],
  ]),
  ...mutationsOf('src/findings/cores/units-of-trade.ts', 'findings/units-of-trade.test.ts', [
    ['const clearly = 2;', 'const clearly = 1;'],
    ['(value / 100) * dryDensity_kg_m3', 'value * dryDensity_kg_m3'],
    ['least_pct > wall.saturated_pct', 'least_pct < wall.saturated_pct'],
  ]),
  ...mutationsOf('src/findings/cores/reused-cores.ts', ['findings/cores/cores-and-air.test.ts', 'findings/cores/cores-limits.test.ts'], [
    ['const sameCore_share = 0.02;', 'const sameCore_share = 0.03;'],
    ['core.dryMasses.length === 1', 'core.dryMasses.length >= 1'],
  ]),
  ...mutationsOf('src/findings/cores/hygroscopic-parts.ts', ['findings/cores/cores-and-air.test.ts', 'findings/cores/cores-limits.test.ts', 'findings/cores/fronts-and-patterns.test.ts'], [
    ['const wallsForPattern = 3;', 'const wallsForPattern = 4;'],
    ['const heightsForPattern = 3;', 'const heightsForPattern = 4;'],
    ['setpoint_rh_pct < saturated_pct', 'setpoint_rh_pct <= saturated_pct'],
    ['excess_pct < 0).length', 'excess_pct > 0).length'],
  ]),
  ...mutationsOf('src/findings/cores/water-and-fronts.ts', ['findings/cores/fronts-and-patterns.test.ts', 'findings/cores/cores-limits.test.ts'], [
    ['const heightsForFront = 5;', 'const heightsForFront = 6;'],
    ['of((each) => each.after - each.before)', 'of((each) => each.before - each.after)'],
  ]),
];

const drying = [
  ...mutationsOf('src/findings/drying/times-to-goals.ts', 'findings/drying/drying-parts.test.ts', [
    ['itemAt(curve.moisture, 0) - goal.by', 'itemAt(curve.moisture, 0) + goal.by'],
    ['surviving <= 0.5', 'surviving < 0.5'],
    ['if (share < 0.5 - 1e-9)', 'if (share <= 0.5 + 1e-9)'],
    ['const mostDays = 7;', 'const mostDays = 8;'],
    ['day >= last)', 'day > last)'],
    ['day <= first)', 'day < first)'],
    ["time > day || (time === day && end === 'censored')", 'time > day'],
    ['if (late === 0)', 'if (late >= 0)'],
  ]),
  ...mutationsOf('src/findings/drying/wait-of-trial.ts', 'findings/drying/drying-facts.test.ts', [
    ['days < wait.wait_d,', 'days <= wait.wait_d,'],
    ['days < wait.least_d)', 'days > wait.least_d)'],
    ['Math.max(winterPressure_pa, recorded ?? 0)', 'recorded ?? winterPressure_pa'],
    ['Math.min(stated, most) : most', 'stated : most'],
    ['shareOf(one) - shareOf(other)', 'shareOf(other) - shareOf(one)'],
    ["air?.source === 'own' ? meanPressure", "air?.source !== undefined ? meanPressure"],
  ]),
  ...mutationsOf('src/findings/drying/implied-evaporation.ts', ['findings/drying/drying-facts.test.ts', 'findings/drying/drying-parts.test.ts'], [
    ['const shortest_d = 7;', 'const shortest_d = 8;'],
    ['fall_pp: before.moisture - moisture', 'fall_pp: moisture - before.moisture'],
    ['(beyond.interval?.lower ?? beyond.mean) > 0', '(beyond.interval?.upper ?? beyond.mean) > 0'],
    ["exposure === 'indoors' ? 'indoors' : 'outdoors'", "exposure === 'outdoors' ? 'outdoors' : 'indoors'"],
    ['(isRaised ? unrecorded : taken) + sun', 'isRaised ? unrecorded : taken'],
  ]),
  ...mutationsOf('src/findings/drying/amounts-before.ts', 'findings/drying/drying-parts.test.ts', [
    ['const window_d = 30;', 'const window_d = 29;'],
    ['const fewestDays = 15;', 'const fewestDays = 16;'],
    ['(stretch.amount * inside) / length', 'stretch.amount'],
  ]),
  ...mutationsOf('src/findings/drying/drying-of-trial.ts', ['findings/drying/drying-parts.test.ts', 'findings/drying/drying.test.ts'], [
    ['const fewestVisits = 4;', 'const fewestVisits = 5;'],
    ['(30 * lostBy(curve, period_d)) / period_d', 'lostBy(curve, period_d) / period_d'],
    ['const fullYear_d = 365;', 'const fullYear_d = 3650;'],
  ]),
  ...mutationsOf('src/findings/drying/losses-of-arms.ts', ['findings/drying/drying-parts.test.ts', 'findings/drying/drying.test.ts'], [
    ['lostIn30Days: (30 * lost) / period_d', 'lostIn30Days: lost / period_d'],
  ]),
  ...mutationsOf('src/findings/drying/mean-pressure.ts', ['findings/drying/drying-facts.test.ts', 'findings/drying/drying-parts.test.ts'], [
    ['daysBetween(from, to) / 2)', 'daysBetween(from, to) / 3)'],
    ['day >= from && day <= to', 'day > from && day < to'],
  ]),
  ...mutationsOf('src/findings/drying/moisture-behind-front.ts', 'findings/drying/wetting.test.ts', [
    ['assumedMoistureBehindFront = 0.2', 'assumedMoistureBehindFront = 0.25'],
    ['const fewestCores = 3;', 'const fewestCores = 4;'],
    ['.value / 100]', '.value / 1000]'],
  ]),
];

const water = [
  ...mutationsOf('src/findings/water-source/signs.ts', ['findings/water-source/water-source.test.ts', 'opinion/threats/timing.test.ts'], [
    ['condensingFrom = 0.1;', 'condensingFrom = 0.12;'],
    ['rainAlarm = 0.03;', 'rainAlarm = 0.035;'],
    ['mostlyHygroscopicFrom = 2 / 3', 'mostlyHygroscopicFrom = 0.9'],
    ['mostlyLiquidUpTo = 1 / 3', 'mostlyLiquidUpTo = 0.1'],
    ['saltsRaisedFrom = 0.5', 'saltsRaisedFrom = 0.9'],
    ['apartFromRainBelow = 0.3', 'apartFromRainBelow = 0.9'],
    ['aboveDewPointBelow = 0.01', 'aboveDewPointBelow = 0.09'],
  ]),
  ...mutationsOf('src/findings/drying/drying-checks.ts', ['findings/drying/drying-facts.test.ts', 'findings/drying/drying-own-windows.test.ts'], [
    ['const fewestVisits = 4;', 'const fewestVisits = 5;'],
    ['lost: fall_pp * scale', 'lost: fall_pp'],
    ['Math.max(...days) - Math.min(...days)', 'Math.max(...days)'],
  ]),
];

export const findingsList = [...air, ...answers, ...cores, ...drying, ...water];
