import { type Recorded, saltIons, type Trial } from '../trial/index.js';
import { orNull, type Row } from './row.js';

/** The tables of a trial, as recorded: nothing is computed. */
export interface RowsOfTrial {
  readonly walls: readonly Row[];
  readonly stations: readonly Row[];
  readonly readings: readonly Row[];
  readonly cores: readonly Row[];
  readonly batches: readonly Row[];
  readonly checks: readonly Row[];
  readonly injections: readonly Row[];
  readonly trays: readonly Row[];
  readonly electrical: readonly Row[];
  readonly salts: readonly Row[];
  readonly air: readonly Row[];
  readonly beliefs: readonly Row[];
  readonly events: readonly Row[];
}

/**
 * A trial as flat records, a table for each kind. Columns are named as in the trial folder, units included; those of one table are the
 * same in every row, `null` where nothing was recorded. A value below the detection limit stays apart: `value` is then `null` and
 * `below_detection` holds the limit. Salts have a row for each ion of a sample, in % by mass.
 *
 * @example rowsOfTrial(trial).walls.length // 24
 */
export function rowsOfTrial(trial: Trial): RowsOfTrial {
  const roles = new Map(trial.protocol.arms.map(({ arm, role }) => [arm, role]));
  return {
    walls: trial.walls.map((wall) => ({
      ...{ wall: wall.wall, arm: wall.arm, role: orNull(roles.get(wall.arm)), block: orNull(wall.block) },
      ...{ site: orNull(wall.site), material: orNull(wall.material), exposure: orNull(wall.exposure) },
      thickness_mm: orNull(wall.thickness_mm),
      dry_density_kg_m3: orNull(wall.dryDensity_kg_m3),
      treated_on: orNull(wall.treatedOn),
    })),
    stations: trial.stations.map(({ station, wall, height_mm, depth_mm, sensor }) => ({
      ...{ station, wall, height_mm: orNull(height_mm), depth_mm: orNull(depth_mm), sensor: orNull(sensor) },
    })),
    readings: trial.readings.map((one) => ({
      ...{ date: one.date, wall: one.wall, station: one.station, instrument: one.instrument },
      ...recorded(one.value),
      ...{ reader: orNull(one.reader), knew_arm: orNull(one.knewArm) },
      ...{ file: one.origin.file, row: one.origin.row },
    })),
    cores: trial.cores.map((one) => ({
      ...{ date: one.date, wall: one.wall, station: one.station, sample: orNull(one.sample) },
      ...{
        container_g: one.container_g,
        wet_g: orNull(one.wet_g),
        dry_g: orNull(one.dry_g),
        humid_g: orNull(one.humid_g),
      },
      ...{ batch: orNull(one.batch), reader: orNull(one.reader), knew_arm: orNull(one.knewArm) },
      ...{ file: one.origin.file, row: one.origin.row },
    })),
    batches: (trial.batches ?? []).map((one) => ({
      ...{ batch: one.batch, oven_c: orNull(one.oven_c), stop_rule: orNull(one.stopRule) },
      ...{ last_change_pct: orNull(one.lastChange_pct), humidity_pct: orNull(one.humidity_pct) },
      humid_temperature_c: orNull(one.humidTemperature_c),
    })),
    checks: (trial.checks ?? []).map((one) => ({
      ...{ date: one.date, instrument: one.instrument, block: one.block },
      ...recorded(one.value),
      reader: orNull(one.reader),
    })),
    injections: (trial.injections ?? []).map((one) => ({
      ...{ date: one.date, wall: one.wall, lot: orNull(one.lot), litres_per_m: one.litres_per_m },
      planned_litres_per_m: orNull(one.plannedLitres_per_m),
      ...{ spacing_mm: orNull(one.spacing_mm), depth_mm: orNull(one.depth_mm), moisture_pct: orNull(one.moisture_pct) },
    })),
    trays: (trial.trays ?? []).map((one) => ({
      ...{ date: one.date, wall: one.wall, refill_ml: orNull(one.refill_ml), mass_kg: orNull(one.mass_kg) },
      ...{ level_mm: orNull(one.level_mm), water: orNull(one.water) },
      ...{ reader: orNull(one.reader), knew_arm: orNull(one.knewArm) },
    })),
    electrical: (trial.electrical ?? []).map((one) => ({
      ...{ time: one.time, wall: one.wall, electrode: orNull(one.electrode) },
      ...{ voltage_v: orNull(one.voltage_v), current_a: orNull(one.current_a) },
      ...{ polarity: orNull(one.polarity), state: one.state },
      ...{ file: one.origin.file, row: one.origin.row },
    })),
    salts: (trial.salts ?? []).flatMap((one) =>
      saltIons.map((ion) => ({
        ...{ date: one.date, wall: one.wall, height_mm: orNull(one.height_mm), depth_mm: orNull(one.depth_mm) },
        ...{ ion, ...recorded(one.contents_pct[ion]), scheme: orNull(one.scheme) },
        ...{ file: one.origin.file, row: one.origin.row },
      })),
    ),
    air: trial.climate.map((one) => ({
      ...{ time: one.time, place: one.place, temperature_c: orNull(one.temperature_c) },
      ...{ relative_humidity_pct: orNull(one.relative_humidity_pct), surface_c: orNull(one.surface_c) },
      ...{ rain_mm: orNull(one.rain_mm), heating_h: orNull(one.heating_h) },
    })),
    beliefs: trial.beliefs.map((one) => ({
      ...{ date: one.date, person: one.person, role: one.role, wall: one.wall, believed_arm: one.believedArm },
      ...{ why: orNull(one.why), reading_date: orNull(one.readingDate) },
    })),
    events: trial.events.map(({ date, wall, kind, note }) => ({ date, wall: orNull(wall), kind, note })),
  };
}

function recorded(value: Recorded): { readonly value: number | null; readonly below_detection: number | null } {
  return {
    value: value.kind === 'measured' ? value.value : null,
    below_detection: value.kind === 'below-detection' ? value.limit : null,
  };
}
