import { mutationsOf } from '../mutation.mjs';

const threats = (name) => `opinion/threats/${name}.test.ts`;

const allocation = [
  ...mutationsOf('src/opinion/threats/allocation/arms.ts', threats('allocation'), [
    ['if (treated.length < 2) return undefined;', 'if (treated.length < 3) return undefined;'],
    ['unmatched > 1 - 1e-9 && Math.min(all, others) > 1', 'unmatched > 1 - 1e-9 && Math.min(all, others) > 0'],
    ['unmatched >= limits.unlikeShare.value', 'unmatched > limits.unlikeShare.value'],
    ['known >= limits.stated.value * walls.length', 'known > limits.stated.value * walls.length'],
    ['isFar && (isSeparate || !isRandomised(facts))', 'isFar && isSeparate'],
  ]),
  ...mutationsOf('src/opinion/threats/allocation/baseline.ts', threats('allocation'), [
    ["const worse = outcome.better === 'lower' ? 1 : -1;", "const worse = outcome.better === 'lower' ? -1 : 1;"],
    ["isShared && !isShare ? 'minor' : 'serious'", "isShared ? 'minor' : 'serious'"],
    ['interval.lower <= 0 && interval.upper >= 0;', 'interval.lower <= 0 || interval.upper >= 0;'],
    [
      "alarm !== undefined || Math.abs(standardised) >= limits.beforeApart_sd.value ? 'serious'",
      "alarm !== undefined && Math.abs(standardised) >= limits.beforeApart_sd.value ? 'serious'",
    ],
  ]),
  ...mutationsOf('src/opinion/threats/allocation/design.ts', threats('allocation'), [
    ['Math.min(treated, untreated) > 1) return undefined;', 'Math.min(treated, untreated) > 2) return undefined;'],
    ["primary.kind === 'estimated' ? 'serious' : 'fatal'", "primary.kind === 'estimated' ? 'fatal' : 'serious'"],
    ["{ evidenceAtBest: 'shaky' as const }", "{ evidenceAtBest: 'fair' as const }"],
    ['sidesByBlock.size < 2)', 'sidesByBlock.size < 3)'],
    ['some((sides) => sides.size > 1)', 'some((sides) => sides.size > 0)'],
    ['if (smallestPossibleP <= alpha * (1 + 1e-9))', 'if (smallestPossibleP <= alpha * (1 + 1e-1))'],
    ['few >= limits.smallArm.value ||', 'few > limits.smallArm.value ||'],
    ['many < limits.armsUnequal.value * few', 'many <= limits.armsUnequal.value * few'],
  ]),
];

const timing = [
  ...mutationsOf('src/opinion/threats/timing/air.ts', threats('timing'), [
    ['air.ratio > 1;', 'air.ratio < 1;'],
    ['if (air.airUnlike !== true)', 'if (air.airUnlike === true)'],
  ]),
  ...mutationsOf('src/opinion/threats/timing/calendar.ts', threats('timing'), [
    ['Math.min(12, monthNumber(to) - first + 1)', 'Math.min(12, monthNumber(to) - first)'],
  ]),
  ...mutationsOf('src/opinion/threats/timing/days-unlike.ts', threats('timing'), [
    ['apart <= limits.daysApart_d.value', 'apart < limits.daysApart_d.value'],
    ['apart > limits.farApart_d.value', 'apart >= limits.farApart_d.value'],
    [
      'Math.abs(other.meanDifference_days) - Math.abs(one.meanDifference_days)',
      'other.meanDifference_days - one.meanDifference_days',
    ],
  ]),
  ...mutationsOf('src/opinion/threats/timing/electrodes.ts', threats('timing'), [
    ["isNull(facts) ? 'serious' : 'minor'", "isNull(facts) ? 'minor' : 'serious'"],
    ['on >= limits.electrodesOn.value', 'on > limits.electrodesOn.value'],
    ['kept >= limits.currentKept.value', 'kept > limits.currentKept.value'],
    ['reversed < limits.currentReversed.value', 'reversed <= limits.currentReversed.value'],
    ['shareOf(wall) >= limits.strayCurrent.value', 'shareOf(wall) > limits.strayCurrent.value'],
    ['current_a / treated.current_a', 'treated.current_a / current_a'],
  ]),
  ...mutationsOf('src/opinion/threats/timing/events.ts', threats('timing'), [
    ['walls.length / allocatedTo(facts, side) >= limits', 'walls.length / allocatedTo(facts, side) > limits'],
    ['day >= windows.before.from && day <=', 'day > windows.before.from && day <='],
    ['&& day <= windows.after.to', '&& day < windows.after.to'],
    ["heating: true,", "heating: false,"],
    ["'plaster-stripped': false,", "'plaster-stripped': true,"],
  ]),
  ...mutationsOf('src/opinion/threats/timing/injection.ts', threats('timing'), [
    ['litres_per_m < limits.doseOfPlanned.value * plannedLitres_per_m', 'litres_per_m < limits.doseOfPlanned.value'],
    ['most / least < limits.dosesUnlike.value', 'most / least <= limits.dosesUnlike.value'],
  ]),
  ...mutationsOf('src/opinion/threats/timing/plaster.ts', threats('timing'), [
    ["apart >= limits.plasterApart.value ? 'serious'", "apart > limits.plasterApart.value ? 'serious'"],
    ['days > limits.plasterDaysApart_d.value', 'days >= limits.plasterDaysApart_d.value'],
  ]),
  ...mutationsOf('src/opinion/threats/timing/steady.ts', threats('timing'), [
    ['(Math.abs(trend.estimate) * window_d) / 30 <', '(trend.estimate * window_d) / 30 <'],
    ['* window_d) / 30 < limits', '* window_d) / 30 <= limits'],
    ["wallsOn(facts, 'untreated').length > 1;", "wallsOn(facts, 'untreated').length > 0;"],
  ]),
  ...mutationsOf('src/opinion/threats/timing/too-dry.ts', threats('timing'), [
    ['share < limits.tooDryShare.value', 'share <= limits.tooDryShare.value'],
    ['treated.tooDry / treated.walls', 'treated.tooDry / (treated.walls + 1)'],
  ]),
  ...mutationsOf('src/opinion/threats/timing/trays.ts', threats('timing'), [
    ['if (Math.abs(trend) < limits.trayTrend.value)', 'if (trend < limits.trayTrend.value)'],
    ['Math.abs(salt.treated - salt.untreated) >= limits', 'Math.abs(salt.treated - salt.untreated) > limits'],
    ['Math.abs(level_mm.treated - level_mm.untreated) >= limits', 'level_mm.treated - level_mm.untreated >= limits'],
  ]),
  ...mutationsOf('src/opinion/threats/timing/treatment-day.ts', threats('timing'), [
    ['excluded / all >= limits.beforeLost.value', 'excluded / all > limits.beforeLost.value'],
    ['const all = kept + excluded;', 'const all = kept;'],
    ['days <= limits.spreadOfTreatment_d.value', 'days < limits.spreadOfTreatment_d.value'],
    ['days > limits.longSpreadOfTreatment_d.value', 'days >= limits.longSpreadOfTreatment_d.value'],
  ]),
  ...mutationsOf('src/opinion/threats/timing/water-source.ts', threats('timing'), [
    ['surface.condensingShare >= limits.condensing.value', 'surface.condensingShare > limits.condensing.value'],
    ['rain.estimate > 0 && rain.pValue', 'rain.pValue'],
  ]),
  ...mutationsOf('src/opinion/threats/timing/windows.ts', threats('timing'), [
    ['shared >= limits.sharedMonths.value', 'shared > limits.sharedMonths.value'],
    ['/ new Set([...before, ...after]).size;', '/ before.size;'],
    ["allocatedTo(facts, 'untreated')) > 1;", "allocatedTo(facts, 'untreated')) > 2;"],
  ]),
];

const measurement = [
  ...mutationsOf('src/opinion/threats/measurement/batches.ts', threats('measurement'), [
    ['share >= limits.driedTogether.value', 'share > limits.driedTogether.value'],
    ['own.length > 1 && new Set(own).size === 1', 'own.length > 0 && new Set(own).size === 1'],
  ]),
  ...mutationsOf('src/opinion/threats/measurement/checks.ts', threats('measurement'), [
    ['pValue >= limits.alarm.value', 'pValue > limits.plainAlarm.value'],
    ['Math.abs(drift) >= margin', 'drift >= margin'],
  ]),
  ...mutationsOf('src/opinion/threats/measurement/conditioning.ts', threats('measurement'), [
    ['Math.abs(nearest.apart) > limits.nearSalt_pp.value', 'nearest.apart > limits.nearSalt_pp.value'],
  ]),
  ...mutationsOf('src/opinion/threats/measurement/guesses.ts', threats('measurement'), [
    ['Math.min(1, pValue * tests.length)', 'Math.min(1, pValue)'],
  ]),
  ...mutationsOf('src/opinion/threats/measurement/instruments.ts', threats('measurement'), [
    ['worst.impedance_mohm >= limits.impedance_mohm.value', 'worst.impedance_mohm > limits.impedance_mohm.value'],
    ['if (before > 0 && after > 0)', 'if (before > 0 || after > 0)'],
  ]),
  ...mutationsOf('src/opinion/threats/measurement/oven.ts', threats('measurement'), [
    ['span <= limits.ovensApart_c.value', 'span < limits.ovensApart_c.value'],
    ['Math.abs(mean(treated) - mean(untreated)) <=', 'mean(treated) - mean(untreated) <='],
    ["!(isAlike('before') && isAlike('after'))", "!(isAlike('before') || isAlike('after'))"],
    ['(batch.lastChange_pct ?? 0) > tolerance_pct', '(batch.lastChange_pct ?? 0) >= tolerance_pct'],
    ['still >= limits.dampMargins.value * margin', 'still > limits.dampMargins.value * margin'],
    ['Math.min(stillIn_pct(batch) ?? most, most)', 'Math.max(stillIn_pct(batch) ?? most, most)'],
    ['(batch.oven_c ?? 0) > stableUpTo_c', '(batch.oven_c ?? 0) >= stableUpTo_c'],
  ]),
  ...mutationsOf('src/opinion/threats/measurement/readers.ts', threats('measurement'), [
    ['yes / all >= limits.knowing.value', 'yes / all > limits.knowing.value'],
    ['unsure / all <= limits.unsure.value', 'unsure / all < limits.unsure.value'],
    ['unsure / all >= limits.mostlyUnsure.value', 'unsure / all > limits.mostlyUnsure.value'],
    ['kept < limits.readersKept.value', 'kept <= limits.readersKept.value'],
    ["changed.length === 2 ? 'minor' : 'serious'", "changed.length === 1 ? 'minor' : 'serious'"],
    ['isoDay(date) <= end);', 'isoDay(date) < end);'],
  ]),
  ...mutationsOf('src/opinion/threats/measurement/salts.ts', threats('measurement'), [
    ['sizeOf(one) >= limits.saltRatio.value && one.timesLow', 'sizeOf(one) >= limits.saltRatio.value || one.timesLow'],
    ['share >= limits.saltChange.value && pValue', 'share > limits.saltChange.value && pValue'],
    ['const looksDrier = apart_pct < 0;', 'const looksDrier = apart_pct > 0;'],
  ]),
];

const missing = [
  ...mutationsOf('src/opinion/threats/missing/readings.ts', threats('missing'), [
    ['Math.abs(apart) > limits.wallsLostApart.value', 'apart > limits.wallsLostApart.value'],
    ["lost / all >= limits.belowDetection.value ? 'serious'", "lost / all > limits.belowDetection.value ? 'serious'"],
    ['const all = lost + facts.used.length;', 'const all = facts.used.length;'],
  ]),
  ...mutationsOf('src/opinion/threats/missing/sensor-log.ts', threats('missing'), [
    ['Math.abs(share(treated) - share(untreated)) >', 'share(treated) - share(untreated) >'],
    ['share(all) <= limits.sensorDaysLost.value', 'share(all) < limits.sensorDaysLost.value'],
    ['one.lost / one.expected', 'one.lost / (one.expected + one.lost)'],
  ]),
  ...mutationsOf('src/opinion/threats/missing/sensor-log.ts', threats('measurement'), [
    ['drifting.length > limits.sensorsDrifting.value *', 'drifting.length >= limits.sensorsDrifting.value *'],
  ]),
  ...mutationsOf('src/opinion/threats/missing/stations.ts', threats('missing'), [
    ['isUneven && Math.abs(difference) >', 'isUneven && difference >'],
    ["Math.abs(difference) > limits.placesLostFarApart.value ? 'serious'", "Math.abs(difference) >= limits.placesLostFarApart.value ? 'serious'"],
    ["renamed === facts.walls.length ? 'minor' : 'serious'", "renamed === facts.walls.length ? 'serious' : 'minor'"],
  ]),
];

const result = [
  ...mutationsOf('src/opinion/threats/result/fragility.ts', threats('result'), [
    ['share >= limits.choicesKept.value', 'share > limits.choicesKept.value'],
    ['Math.abs(standing[own] - standing[other]) > 1;', 'Math.abs(standing[own] - standing[other]) > 0;'],
    ['kept / others.length', 'kept / (others.length + 1)'],
  ]),
  ...mutationsOf('src/opinion/threats/result/plan.ts', threats('result'), [
    ['plannedOn <= windows.after.from &&', 'plannedOn < windows.after.from &&'],
    ['day > windows.before.to : day > treatedOn', 'day > windows.before.to : day >= treatedOn'],
  ]),
  ...mutationsOf('src/opinion/threats/result/lock.ts', threats('lock'), [
    ['if (lock.lockedOn <= first)', 'if (lock.lockedOn < first)'],
  ]),
  ...mutationsOf('src/opinion/threats/threat-words.ts', [threats('timing'), threats('allocation')], [
    ['if (pValue < limits.plainAlarm.value)', 'if (pValue <= limits.alarm.value)'],
    ["better === 'lower' ? estimate < 0 : estimate > 0", "better === 'lower' ? estimate > 0 : estimate < 0"],
  ]),
];

const rules = [
  ...mutationsOf('src/opinion/evidence.ts', 'opinion/evidence.test.ts', [
    ['count.serious <= row.serious', 'count.serious < row.serious'],
    ['count.minor <= row.minor', 'count.minor < row.minor'],
    ['firmestFirst[Math.max(...ranks)]', 'firmestFirst[Math.min(...ranks)]'],
  ]),
  ...mutationsOf('src/opinion/judging/turning-points.ts', 'opinion/judging/turning-points.test.ts', [
    ["const worse = better === 'lower' ? 1 : -1;", "const worse = better === 'lower' ? -1 : 1;"],
    ["better === 'lower' ? -margin : margin", "better === 'lower' ? margin : -margin"],
    ['sign * (mark - limit)', 'sign * (limit - mark)'],
    ['lower <= 0 && upper >= 0;', 'lower < 0 && upper >= 0;'],
    ['if (crossing === undefined || crossing <= first)', 'if (crossing === undefined || crossing < first)'],
  ]),
  ...mutationsOf('src/opinion/verdict-of-trial.ts', 'opinion/verdict-sentence.test.ts', [
    ["evidence === 'none' ? 'not-answerable' : answer.code", "evidence === 'none' ? answer.code : answer.code"],
  ]),
  ...mutationsOf('src/opinion/verdict-sentence.ts', 'opinion/verdict-sentence.test.ts', [
    ['const decimals = largest < 10 ? 2 : 1;', 'const decimals = largest < 10 ? 1 : 2;'],
  ]),
];

export const opinionList = [...allocation, ...timing, ...measurement, ...missing, ...result, ...rules];
