/** What the contract says of one table: its file name, its columns, and which of them hold numbers. */
export interface TableLayout {
  readonly file: string;
  /** Columns that must be there. */
  readonly needed: readonly string[];
  /** Columns that may be left out; any further column is kept in the file and ignored here. */
  readonly optional: readonly string[];
  readonly numeric: readonly string[];
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
      'dry_density_kg_m3',
      'treated_on',
      'before_from',
      'before_to',
      'after_from',
      'after_to',
      'neighbours',
    ],
    numeric: ['thickness_mm', 'dry_density_kg_m3'],
  },
  stations: {
    file: 'stations.csv',
    needed: ['station', 'wall'],
    optional: ['height_mm', 'depth_mm', 'sensor'],
    numeric: ['height_mm', 'depth_mm'],
  },
  readings: {
    file: 'readings.csv',
    needed: ['date', 'wall', 'instrument', 'value'],
    optional: ['station', 'reader', 'knew_arm', 'lead'],
    numeric: ['value'],
  },
  cores: {
    file: 'cores.csv',
    needed: ['date', 'wall', 'wet_g', 'dry_g'],
    optional: ['station', 'sample', 'container_g', 'humid_g', 'batch', 'reader', 'knew_arm'],
    numeric: ['container_g', 'wet_g', 'dry_g', 'humid_g'],
  },
  batches: {
    file: 'batches.csv',
    needed: ['batch'],
    optional: ['oven_c', 'stop_rule', 'last_change_pct', 'humidity_pct', 'humid_temperature_c', 'note'],
    numeric: ['oven_c', 'last_change_pct', 'humidity_pct', 'humid_temperature_c'],
  },
  climate: {
    file: 'climate.csv',
    needed: ['time', 'place'],
    optional: ['temperature_c', 'relative_humidity_pct', 'surface_c', 'rain_mm', 'heating_h'],
    numeric: ['temperature_c', 'relative_humidity_pct', 'surface_c', 'rain_mm', 'heating_h'],
  },
  salts: {
    file: 'salts.csv',
    needed: ['date', 'wall'],
    optional: ['height_mm', 'depth_mm', 'chloride_pct', 'nitrate_pct', 'sulfate_pct', 'scheme'],
    numeric: ['height_mm', 'depth_mm', 'chloride_pct', 'nitrate_pct', 'sulfate_pct'],
  },
  blinding: {
    file: 'blinding.csv',
    needed: ['date', 'person', 'role', 'wall', 'believed_arm'],
    optional: ['why', 'reading_date'],
    numeric: [],
  },
  checks: {
    file: 'checks.csv',
    needed: ['date', 'instrument', 'block', 'value'],
    optional: ['reader'],
    numeric: ['value'],
  },
  diary: {
    file: 'diary.csv',
    needed: ['date', 'kind'],
    optional: ['wall', 'note'],
    numeric: [],
  },
} as const satisfies Record<string, TableLayout>;

export type TableName = keyof typeof tableLayouts;

export const tableNames = Object.keys(tableLayouts) as TableName[];

export const protocolFile = 'protocol.json';
