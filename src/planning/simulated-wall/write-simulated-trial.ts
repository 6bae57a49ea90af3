import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { planJson } from '../../records/index.js';
import type { Trial } from '../../trial/index.js';
import { measuredValue } from '../../trial/measured-value.js';
import type { SimulatedTrial } from './simulate-trial.js';

type Cell = string | number | undefined;
type Row = Readonly<Record<string, Cell>>;

/**
 * Writes a simulated trial as a trial folder, with the truth beside it in `truth.json`, which no reader of trial folders looks at.
 *
 * @param folder made where it is missing; files of the same name are written over
 * @example await writeSimulatedTrial(simulateTrial(plainDesign, 1), await fs.mkdtemp('/tmp/walls-')) // undefined
 */
export async function writeSimulatedTrial({ trial, truth }: SimulatedTrial, folder: string): Promise<void> {
  await mkdir(folder, { recursive: true });
  const files: Readonly<Record<string, string>> = {
    'protocol.json': jsonText(planJson(trial.protocol)),
    ...Object.fromEntries(
      Object.entries(tablesOf(trial)).flatMap(([name, rows]) => (rows.length === 0 ? [] : [[name, csv(rows)]])),
    ),
    'truth.json': jsonText(truth),
  };
  await Promise.all(Object.entries(files).map(([name, text]) => writeFile(join(folder, name), text)));
}

function jsonText(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}

function tablesOf(trial: Trial): Readonly<Record<string, readonly Row[]>> {
  return {
    'walls.csv': trial.walls.map(({ wall, arm, block, site, material, thickness_mm, dryDensity_kg_m3, treatedOn }) => ({
      ...{ wall, arm, block, site, material, thickness_mm, dry_density_kg_m3: dryDensity_kg_m3, treated_on: treatedOn },
    })),
    'stations.csv': trial.stations.map(({ station, wall, height_mm, depth_mm }) => ({
      station,
      wall,
      height_mm,
      depth_mm,
    })),
    'cores.csv': trial.cores.map(({ date, wall, station, container_g, wet_g, dry_g, batch, reader, knewArm }) => ({
      ...{ date, wall, station, container_g, wet_g, dry_g, batch, reader, knew_arm: knewArm },
    })),
    'readings.csv': trial.readings.map(({ date, wall, station, instrument, value, reader, knewArm }) => ({
      ...{ date, wall, station, instrument, value: measuredValue({ value }), reader, knew_arm: knewArm },
    })),
    'batches.csv': (trial.batches ?? []).map(({ batch, oven_c, stopRule, lastChange_pct }) => ({
      ...{ batch, oven_c, stop_rule: stopRule, last_change_pct: lastChange_pct },
    })),
    'checks.csv': (trial.checks ?? []).map(({ date, instrument, block, value, reader }) => ({
      ...{ date, instrument, block, value: measuredValue({ value }), reader },
    })),
    'climate.csv': trial.climate.map(({ time, place, temperature_c, relative_humidity_pct }) => ({
      ...{ time, place, temperature_c, relative_humidity_pct },
    })),
    'salts.csv': (trial.salts ?? []).map(({ date, wall, height_mm, depth_mm, contents_pct: { chloride } }) => ({
      ...{ date, wall, height_mm, depth_mm, chloride_pct: measuredValue({ value: chloride }) },
    })),
    'diary.csv': trial.events.map(({ date, wall, kind, note }) => ({ date, wall, kind, note })),
  };
}

function csv(rows: readonly Row[]): string {
  const columns = Object.keys(rows[0] ?? {});
  const lines = [columns, ...rows.map((row) => columns.map((column) => cellText(row[column])))];
  return lines.map((line) => `${line.join(',')}\n`).join('');
}

function cellText(cell: Cell): string {
  const text = cell === undefined ? '' : String(cell);
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
