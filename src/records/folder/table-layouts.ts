/** What the contract says of one table: its file name, its columns, and which of them hold numbers. */
export interface TableLayout {
  readonly file: string;
  /** Columns that must be there. */
  readonly needed: readonly string[];
  /** Columns that may be left out; any further column is kept in the file and ignored here. */
  readonly optional: readonly string[];
  readonly numeric: readonly string[];
  readonly dates: readonly string[];
}

/** Every table of a trial folder, in the order in which problems are listed. */
export const tableLayouts = {
  walls: {
    file: 'walls.csv',
    needed: ['wall', 'arm'],
    optional: [
      'block',
      'site',
      'material',
      'exposure',
      'thickness_mm',
      'area_m2',
      'dry_density_kg_m3',
      'saturated_pct',
      'treated_on',
      'before_from',
      'before_to',
      'after_from',
      'after_to',
      'neighbours',
    ],
    numeric: ['thickness_mm', 'area_m2', 'dry_density_kg_m3', 'saturated_pct'],
    dates: ['treated_on', 'before_from', 'before_to', 'after_from', 'after_to'],
  },
  stations: {
    file: 'stations.csv',
    needed: ['station', 'wall'],
    optional: ['height_mm', 'depth_mm', 'depth_from_mm', 'depth_to_mm', 'position_mm', 'sensor'],
    numeric: ['height_mm', 'depth_mm', 'depth_from_mm', 'depth_to_mm', 'position_mm'],
    dates: [],
  },
  readings: {
    file: 'readings.csv',
    needed: ['date', 'wall', 'instrument', 'value'],
    optional: ['station', 'height_mm', 'depth_mm', 'position_mm', 'reader', 'knew_arm', 'lead'],
    numeric: ['value', 'height_mm', 'depth_mm', 'position_mm'],
    dates: ['date'],
  },
  cores: {
    file: 'cores.csv',
    needed: ['date', 'wall', 'wet_g', 'dry_g'],
    optional: [
      'station',
      'height_mm',
      'depth_mm',
      'position_mm',
      'sample',
      'container_g',
      'humid_g',
      'batch',
      'reader',
      'knew_arm',
    ],
    numeric: ['container_g', 'wet_g', 'dry_g', 'humid_g', 'height_mm', 'depth_mm', 'position_mm'],
    dates: ['date'],
  },
  batches: {
    file: 'batches.csv',
    needed: ['batch'],
    optional: [
      'oven_c',
      'stop_rule',
      'last_change_pct',
      'change_before_pct',
      'humidity_pct',
      'humid_temperature_c',
      'note',
    ],
    numeric: ['oven_c', 'last_change_pct', 'change_before_pct', 'humidity_pct', 'humid_temperature_c'],
    dates: [],
  },
  climate: {
    file: 'climate.csv',
    needed: ['time', 'place'],
    optional: ['temperature_c', 'relative_humidity_pct', 'surface_c', 'rain_mm', 'heating_h'],
    numeric: ['temperature_c', 'relative_humidity_pct', 'surface_c', 'rain_mm', 'heating_h'],
    dates: ['time'],
  },
  salts: {
    file: 'salts.csv',
    needed: ['date', 'wall'],
    optional: ['height_mm', 'depth_mm', 'chloride_pct', 'nitrate_pct', 'sulfate_pct', 'scheme'],
    numeric: ['height_mm', 'depth_mm', 'chloride_pct', 'nitrate_pct', 'sulfate_pct'],
    dates: ['date'],
  },
  blinding: {
    file: 'blinding.csv',
    needed: ['date', 'person', 'role', 'wall', 'believed_arm'],
    optional: ['why', 'reading_date'],
    numeric: [],
    dates: ['date', 'reading_date'],
  },
  checks: {
    file: 'checks.csv',
    needed: ['date', 'instrument', 'block', 'value'],
    optional: ['reader'],
    numeric: ['value'],
    dates: ['date'],
  },
  injection: {
    file: 'injection.csv',
    needed: ['date', 'wall', 'litres_per_m'],
    optional: ['lot', 'planned_litres_per_m', 'spacing_mm', 'depth_mm', 'moisture_pct'],
    numeric: ['litres_per_m', 'planned_litres_per_m', 'spacing_mm', 'depth_mm', 'moisture_pct'],
    dates: ['date'],
  },
  trays: {
    file: 'trays.csv',
    needed: ['date', 'wall'],
    optional: ['refill_ml', 'mass_kg', 'level_mm', 'water', 'reader', 'knew_arm'],
    numeric: ['refill_ml', 'mass_kg', 'level_mm'],
    dates: ['date'],
  },
  electrical: {
    file: 'electrical.csv',
    needed: ['time', 'wall'],
    optional: ['electrode', 'voltage_v', 'current_a', 'polarity', 'state'],
    numeric: ['voltage_v', 'current_a'],
    dates: ['time'],
  },
  diary: {
    file: 'diary.csv',
    needed: ['date', 'kind'],
    optional: ['wall', 'note'],
    numeric: [],
    dates: ['date'],
  },
} as const satisfies Record<string, TableLayout>;

export type TableName = keyof typeof tableLayouts;

export const tableNames = Object.keys(tableLayouts) as TableName[];

/** The plan as a table: a key a row, instead of `protocol.json`. */
export const planLayout: TableLayout = {
  file: 'plan.csv',
  needed: ['key', 'answer'],
  optional: ['why'],
  numeric: [],
  dates: [],
};

/** Readings as a survey writes them down: not a table with a header, see `read-grids.ts`. */
export const gridsFile = 'grids.csv';

/** What a sheet of a workbook may hold. */
export type SheetName = TableName | 'plan' | 'grids';

export const sheetNames: readonly SheetName[] = [...tableNames, 'plan', 'grids'];

export function fileOfSheet(name: SheetName): string {
  if (name === 'plan') return planLayout.file;
  return name === 'grids' ? gridsFile : tableLayouts[name].file;
}

export const protocolFile = 'protocol.json';

/** The plan as it was sealed, written by the program alone. */
export const lockFile = 'lock.json';
