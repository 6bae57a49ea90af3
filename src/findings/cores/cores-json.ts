import { reasonInWords } from '../../labels/index.js';
import type { AirInWindow } from '../air/air-of-trial.js';
import type { AirRecord } from '../air/air-record.js';
import type { PotentialFacts } from '../potentials/potentials-of-trial.js';
import type { CoresPart, FrontsOfArm, LeftOutHere } from './cores-part.js';
import type { MeanOfWalls } from './mean-of-walls.js';
import type { BeforeAfter, UnitsOfArm } from './units-of-trade.js';

/** What the cores say, for `opinion.json`; `null` where a part is not there. */
export function coresJson({ batches, reused, hygroscopic, units, water, fronts, maps }: CoresPart) {
  return {
    batches: (batches ?? []).map((group) => ({
      batches: group.batches,
      cores: group.cores,
      oven_c: group.oven_c ?? null,
      stopRule: group.stopRule ?? null,
      lastChange_pct: group.lastChange_pct ?? null,
      stillIn_pct: group.stillIn_pct ?? null,
      isRuleMet: group.isRuleMet ?? null,
      humidity_pct: group.humidity_pct ?? null,
      humidTemperature_c: group.humidTemperature_c ?? null,
    })),
    reused:
      reused === undefined
        ? null
        : {
            cores: reused.cores,
            walls: reused.walls,
            visits: { ...reused.visits },
            hidden: reused.hidden === undefined ? null : { ...reused.hidden },
            corrected:
              reused.corrected === undefined
                ? null
                : {
                    ...reused.corrected,
                    answer: reused.corrected.answer === undefined ? null : { ...reused.corrected.answer },
                  },
            serial: reused.serial.map((each) => ({ ...each })),
          },
    hygroscopic: hygroscopic === undefined ? null : hygroscopicJson(hygroscopic),
    units: (units ?? []).map(unitsJson),
    water: (water ?? []).map(({ arm, means, ofWeighing, beyond, leftOut }) => ({
      arm,
      unit: 'kg/m²',
      before: meanJson(means?.before),
      after: meanJson(means?.after),
      change: meanJson(means?.change),
      ofWeighing: ofWeighing ?? null,
      beyondDeepestCore: beyond === undefined ? null : { ...beyond },
      leftOut: leftOut.map(leftOutJson),
    })),
    fronts: (fronts ?? []).map((front) => frontJson(front)),
    maps: (maps ?? []).map(({ arm, walls, before, change }) => ({
      arm,
      walls,
      before: before.map((cell) => ({ ...cell })),
      change: change.map((cell) => ({ ...cell })),
    })),
  };
}

function unitsJson({ arm, volume_pct, water_kg_m3, saturation_pct, aboveSaturation }: UnitsOfArm) {
  const part = (of: BeforeAfter | undefined) =>
    of === undefined ? null : { before: meanJson(of.before), after: meanJson(of.after), change: meanJson(of.change) };
  return {
    arm,
    volume_pct: part(volume_pct),
    water_kg_m3: part(water_kg_m3),
    saturation_pct: part(saturation_pct),
    aboveSaturation: aboveSaturation === undefined ? null : { ...aboveSaturation },
  };
}

function hygroscopicJson({
  condition,
  cores,
  refused,
  negative,
  salts,
  air,
  profiles,
}: NonNullable<CoresPart['hygroscopic']>) {
  return {
    humidity_pct: condition?.setpoint_rh_pct ?? null,
    temperature_c: condition?.temperature_c ?? null,
    cores,
    negative,
    salts:
      salts === undefined
        ? null
        : { near: salts.near.map(({ salt, humidity_pct }) => ({ salt, humidity_pct })), notKnown: [...salts.notKnown] },
    air: air === undefined ? null : { ...air },
    refused: refused.map(({ reason, cores: own }) => ({ reason: reasonInWords(reason), cores: own })),
    profiles: profiles.map(({ arm, window, heights, pattern }) => ({
      arm,
      window,
      heights: heights.map((each) => ({ ...each })),
      excess: pattern?.excess.shape ?? null,
      hygroscopic: pattern?.hygroscopic.shape ?? null,
    })),
  };
}

function frontJson({
  arm,
  walls,
  before,
  after,
  change,
  open,
  byOrder,
  notFound,
}: FrontsOfArm & { readonly arm: string }) {
  return {
    ...{ arm, walls, unit: 'mm' },
    before: meanJson(before),
    after: meanJson(after),
    change: meanJson(change),
    open: { ...open },
    byOrder: { before: meanJson(byOrder.before), after: meanJson(byOrder.after), change: meanJson(byOrder.change) },
    notFound: { before: notFound.before.map(leftOutJson), after: notFound.after.map(leftOutJson) },
  };
}

function leftOutJson({ reason, walls }: LeftOutHere) {
  return { reason: reasonInWords(reason), walls };
}

function meanJson(of: MeanOfWalls | undefined) {
  if (of === undefined) return null;
  const { mean, walls, interval } = of;
  return { mean, walls, interval: interval === undefined ? null : { ...interval } };
}

/** The air in the windows, for `opinion.json`. */
export function airJson(air: readonly AirInWindow[]) {
  return air.map((each) => ({ ...each, dewPoint_c: each.dewPoint_c ?? null }));
}

/** Humidities that count as 100 %, and the walls’ surfaces by arm, for `opinion.json`. */
export function airRecordJson({ humidityReadings, aboveSaturation, highestShown_pct, surfaces }: AirRecord) {
  return {
    humidityReadings,
    countedAs100: aboveSaturation,
    highestShown_pct: highestShown_pct ?? null,
    surfaces: surfaces.map((each) => ({ ...each })),
  };
}

/** Voltages, for `opinion.json`. */
export function potentialsJson(potentials: readonly PotentialFacts[]) {
  return potentials.map(({ instrument, readings, oneWay, offset, ofVisit_mv, signs }) => ({
    instrument,
    readings,
    oneWay,
    offset:
      offset?.kind === 'computed'
        ? {
            offset_mv: offset.value.offset_mv,
            interval: { ...offset.value.interval },
            pairs: offset.value.pairs.length,
            drift_mv: offset.value.drift?.drift ?? null,
          }
        : null,
    ofVisit_mv: ofVisit_mv ?? null,
    signs:
      signs.kind === 'computed'
        ? {
            treated: { ...signs.value.treated },
            untreated: { ...signs.value.untreated },
            walls: signs.value.walls.map(({ wall, side, change }) => ({ wall, side, ...change })),
          }
        : null,
  }));
}
