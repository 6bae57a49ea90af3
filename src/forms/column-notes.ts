import type { TableName, tableLayouts } from '../records/folder/table-layouts.js';
import { believerRoles } from '../records/tables/read-beliefs.js';
import { eventKinds } from '../records/tables/read-events.js';
import { knewArmWords, leads } from '../records/tables/read-readings.js';
import { saltSchemeNames } from '../trial/index.js';

/** What a column of a sheet holds, for whoever fills it in. */
export interface ColumnNote {
  readonly note: string;
  readonly example: string;
  /** Where a word of a list is expected. */
  readonly words?: readonly string[];
  /** Where a name is expected that stands in another sheet. */
  readonly names?: 'arms' | 'instruments' | 'walls' | 'stations' | 'batches';
  readonly look?: 'day' | 'prose';
}

/** A column that the reader knows and the form leaves out, as the sheet `stations` says where each place is. */
const inStations = 'in stations' as const;

type ColumnOf<Table extends TableName> =
  | (typeof tableLayouts)[Table]['needed'][number]
  | (typeof tableLayouts)[Table]['optional'][number];

const day = (note: string, example = '2024-03-12'): ColumnNote => ({ note, example, look: 'day' });
const windowDay = (which: string): ColumnNote =>
  day(`${which} of this wall alone, where walls were treated one after the other. All four days of a wall, or none.`);

const wall: ColumnNote = { note: 'The wall, as named in the sheet walls.', example: 'W01', names: 'walls' };
const station: ColumnNote = {
  note: 'The place on the wall, as named in the sheet stations. Blank: the wall as a whole.',
  example: 'W01-200',
  names: 'stations',
};
const reader: ColumnNote = {
  note: 'Who took it, by name or initials: a difference between readers can pass for an effect.',
  example: 'R1',
};
const knewArm: ColumnNote = {
  note: 'Did the reader know, when reading, whether this wall was treated?',
  example: 'no',
  words: knewArmWords,
};
const instrument: ColumnNote = {
  note: 'The instrument, as named in the sheet plan.',
  example: 'microwave',
  names: 'instruments',
};

/**
 * A note for every column that a trial folder knows, in the order in which a sheet is best filled in; the compiler asks for those that are
 * missing.
 */
const columnNotes: {
  readonly [Table in TableName]: { readonly [Column in ColumnOf<Table>]: ColumnNote | typeof inStations };
} = {
  walls: {
    wall: { note: 'A name of the wall, never used twice. A wall is treated or not as a whole.', example: 'W01' },
    arm: {
      note: 'The arm that the wall was allocated to, as named in the sheet plan.',
      example: 'treated',
      names: 'arms',
    },
    block: {
      note: 'The pair or block inside which the wall was allocated: walls alike carry the same name. Blank: none.',
      example: 'P01',
    },
    site: { note: 'House, garden or cellar where the wall stands.', example: 'garden 01' },
    material: { note: 'What the wall is built of, mortar included.', example: 'brick in lime mortar', look: 'prose' },
    thickness_mm: { note: 'Thickness in millimetres, without plaster.', example: '215' },
    treated_on: day(
      'The day of the treatment; of an untreated wall blank, or the day on which its sham was fixed.',
      '2024-06-10',
    ),
    exposure: {
      note: 'Weather, sun, ground: what sets it apart from walls built alike.',
      example: 'west, driving rain',
      look: 'prose',
    },
    area_m2: { note: 'Area of one face, in square metres.', example: '6.5' },
    saturated_pct: { note: 'Water that the masonry holds when saturated, in % of its dry mass.', example: '15' },
    dry_density_kg_m3: {
      note: 'Of the dry masonry, in kg/m³: turns per cent into kilograms of water.',
      example: '1700',
    },
    neighbours: { note: 'Walls that share masonry, ground or air with it, with a bar between.', example: 'W02|W03' },
    before_from: windowDay('First day of the before window'),
    before_to: windowDay('Last day of the before window'),
    after_from: windowDay('First day of the after window'),
    after_to: windowDay('Last day of the after window'),
  },
  stations: {
    station: { note: 'A name of the place, used at every visit.', example: 'W01-200' },
    wall,
    height_mm: { note: 'Height above the floor in millimetres.', example: '200' },
    depth_mm: { note: 'Depth in the wall in millimetres.', example: '40' },
    depth_from_mm: { note: 'Where the core begins, in millimetres from the front face.', example: '20' },
    depth_to_mm: { note: 'Where it ends.', example: '60' },
    position_mm: { note: 'Distance along the wall from an end that you choose, in millimetres.', example: '1500' },
    sensor: { note: 'What the log calls the sensor that is built in here. Blank: none.', example: 'S07' },
  },
  readings: {
    date: day('The day of the reading; with a time (2024-03-12T09:30) where it was read twice in a day.'),
    wall,
    station,
    instrument,
    value: {
      note: 'The value as shown. <0.5 is below what it can detect; blank, NA or a dash: not read.',
      example: '50.6',
    },
    height_mm: inStations,
    depth_mm: inStations,
    position_mm: inStations,
    reader,
    knew_arm: knewArm,
    lead: {
      note: 'Of a voltage alone: whether the leads were swapped against the plan.',
      example: 'as-stated',
      words: leads,
    },
  },
  cores: {
    date: day('The day of drilling.'),
    wall,
    station,
    height_mm: inStations,
    depth_mm: inStations,
    position_mm: inStations,
    sample: { note: 'Number of the core.', example: 'C001' },
    container_g: { note: 'The empty container, in grams. Blank: the masses are net.', example: '12.17' },
    wet_g: { note: 'Container with the core as drilled, in grams.', example: '52.09' },
    dry_g: { note: 'Container with the core after the oven, in grams.', example: '48.06' },
    humid_g: {
      note: 'Container with the dry core after days in air of known humidity, in grams; shows salts.',
      example: '48.31',
    },
    batch: { note: 'Cores that were dried together, as named in the sheet batches.', example: 'B1', names: 'batches' },
    reader,
    knew_arm: knewArm,
  },
  batches: {
    batch: { note: 'A name of the batch.', example: 'B1' },
    oven_c: { note: 'Temperature of the oven in °C.', example: '105' },
    stop_rule: { note: 'When the cores counted as dry.', example: 'change under 0.1 % in 24 h', look: 'prose' },
    last_change_pct: { note: 'Change of the mass between the last two weighings, in per cent.', example: '0.05' },
    change_before_pct: { note: 'The change before that one, over as long an interval, in per cent.', example: '0.15' },
    humidity_pct: { note: 'Relative humidity of the air in which humid_g was reached, in per cent.', example: '75' },
    humid_temperature_c: { note: 'Temperature of that air in °C.', example: '20' },
    note: { note: 'Anything else about the batch.', example: '', look: 'prose' },
  },
  climate: {
    time: { note: 'Day and time, as 2024-03-12T12:00.', example: '2024-03-12T12:00' },
    place: { note: 'Where it was read. A site of the sheet walls: the air beside those walls.', example: 'garden 01' },
    temperature_c: { note: 'Temperature of the air in °C.', example: '8.5' },
    relative_humidity_pct: { note: 'Relative humidity in per cent.', example: '82' },
    surface_c: { note: 'Temperature of the wall’s surface there, in °C.', example: '7.9' },
    rain_mm: { note: 'Rain since the row before of this place, in millimetres.', example: '4.2' },
    heating_h: { note: 'Hours of heating since the row before of this place.', example: '30' },
  },
  salts: {
    date: day('The day of the sampling.'),
    wall,
    height_mm: { note: 'Height of the sample above the datum, in millimetres.', example: '300' },
    depth_mm: { note: 'Depth of the sample in the wall, in millimetres.', example: '20' },
    chloride_pct: { note: 'Chloride in per cent of the dry mass; <0.01 below detection.', example: '0.31' },
    nitrate_pct: { note: 'Nitrate in per cent of the dry mass; <0.01 below detection.', example: '0.12' },
    sulfate_pct: { note: 'Sulfate in per cent of the dry mass; <0.01 below detection.', example: '0.4' },
    scheme: { note: 'The scheme by which the contents are classed.', example: 'wta-2-6-99', words: saltSchemeNames },
  },
  blinding: {
    date: day('The day of asking.', '2025-05-28'),
    person: { note: 'Who was asked.', example: 'R1' },
    role: { note: 'What the person does in the trial.', example: 'reader', words: believerRoles },
    wall,
    believed_arm: {
      note: 'The arm that the person believes the wall is in, or unknown.',
      example: 'control',
      names: 'arms',
    },
    why: { note: 'What the belief rests on.', example: 'a guess', look: 'prose' },
    reading_date: day('The day of the readings that it is about.', '2025-05-28'),
  },
  checks: {
    date: day('The day of the check.'),
    instrument,
    block: { note: 'A block that does not change, read to see whether the meter does.', example: 'acrylic block' },
    value: { note: 'The value as shown.', example: '31.2' },
    reader,
  },
  injection: {
    date: day('The day of the injection.', '2024-06-10'),
    wall,
    lot: { note: 'Lot of the product, as on the drum.', example: 'L-240511' },
    litres_per_m: { note: 'What went in, in litres per metre of wall.', example: '1.8' },
    planned_litres_per_m: { note: 'What was planned, in litres per metre.', example: '2' },
    spacing_mm: { note: 'From hole to hole, in mm.', example: '120' },
    depth_mm: { note: 'How deep the holes are, in mm.', example: '300' },
    moisture_pct: { note: 'Moisture of the wall when it was injected, in % by mass.', example: '9.5' },
  },
  trays: {
    date: day('The day.'),
    wall,
    refill_ml: { note: 'Water that brought the tray back to its level, in ml.', example: '420' },
    mass_kg: { note: 'Mass of the whole specimen, in kg.', example: '182.4' },
    level_mm: { note: 'Level after the refill in mm; 0 once the tray was emptied to let it dry.', example: '50' },
    water: { note: 'What is in the tray.', example: 'tap', words: ['tap', 'salt'] },
    reader,
    knew_arm: knewArm,
  },
  electrical: {
    time: { note: 'Day and time, as 2024-03-12T12:00.', example: '2024-03-12T12:00' },
    wall,
    electrode: { note: 'Which circuit, where a wall has several: anode or cathode, with a number.', example: 'anode' },
    voltage_v: { note: 'Volts across the electrodes.', example: '24' },
    current_a: { note: 'Amperes; below zero where it flows against the polarity of the plan.', example: '0.035' },
    polarity: {
      note: 'Which pole is in the wall.',
      example: 'anode-in-wall',
      words: ['anode-in-wall', 'cathode-in-wall'],
    },
    state: { note: 'Whether it was switched on, from this row until the next.', example: 'on', words: ['on', 'off'] },
  },
  diary: {
    date: day('The day of the event.', '2024-11-20'),
    wall: { ...wall, note: 'The wall that it struck. Blank: all walls.' },
    kind: { note: 'What happened.', example: 'heating', words: eventKinds },
    note: { note: 'What happened, in words.', example: 'boiler out of order for a week', look: 'prose' },
  },
};

/** The notes of a table by column, in the order of its sheet. */
export function notesOf(table: TableName): ReadonlyMap<string, ColumnNote> {
  const entries = Object.entries<ColumnNote | typeof inStations>(columnNotes[table]);
  return new Map(
    entries.flatMap(([column, note]): [string, ColumnNote][] => (note === inStations ? [] : [[column, note]])),
  );
}
