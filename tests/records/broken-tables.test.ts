import { describe, expect, it } from 'vitest';
import {
  addColumns,
  addLine,
  type Edit,
  editedFolder,
  protocol,
  put,
  refusal,
  remove,
  replace,
  setCell,
} from '../helpers/edit-folder.js';

const ownWindows = ['before_from', 'before_to', 'after_from', 'after_to'];

type Case = readonly [string, readonly Edit[], readonly string[]];

const walls: readonly Case[] = [
  [
    'an unknown arm',
    [setCell('walls.csv', 3, 'arm', 'contol')],
    [
      'walls.csv, row 3, column arm: found "contol", expected an arm of protocol.json: treated or control; did you mean "control"?',
    ],
  ],
  [
    'an arm like no other',
    [setCell('walls.csv', 2, 'arm', 'placebo')],
    ['walls.csv, row 2, column arm: found "placebo", expected an arm of protocol.json: treated or control'],
  ],
  [
    'a wall twice',
    [
      setCell('walls.csv', 3, 'wall', 'w1'),
      remove('stations.csv', 'readings.csv', 'blinding.csv'),
      put('cores.csv', 'date,wall,wet_g,dry_g\n2024-03-12,w1,52,46\n'),
    ],
    ['walls.csv, row 3, column wall: found the wall "w1" again, after row 2, expected each wall once'],
  ],
  [
    'a wall without a name',
    [addLine('walls.csv', ',control,c,,,,')],
    ['walls.csv, row 6, column wall: found nothing, expected the name of a wall'],
  ],
  [
    'a wall without an arm',
    [setCell('walls.csv', 5, 'arm', 'NA')],
    ['walls.csv, row 5, column arm: found nothing, expected an arm of protocol.json: treated or control'],
  ],
  [
    'a thickness of nothing',
    [setCell('walls.csv', 2, 'thickness_mm', '0')],
    ['walls.csv, row 2, column thickness_mm: found "0", expected a thickness in mm above 0'],
  ],
  [
    'a day that does not exist',
    [setCell('walls.csv', 2, 'treated_on', '2024-06-31')],
    ['walls.csv, row 2, column treated_on: found "2024-06-31", expected a day that exists: June 2024 has 30 days'],
  ],
  [
    'a treatment before the before window began',
    [setCell('walls.csv', 2, 'treated_on', '2024-02-29')],
    [
      'walls.csv, row 2, column treated_on: found a treatment on 2024-02-29, expected none before the before window begins (2024-03-01)',
    ],
  ],
  [
    'a treatment after the after window ended',
    [setCell('walls.csv', 4, 'treated_on', '2025-06-01')],
    [
      'walls.csv, row 4, column treated_on: found a treatment on 2025-06-01, expected none after the after window has ended (2025-05-31)',
    ],
  ],
  [
    'a treatment before a wall’s own before window',
    [addColumns('walls.csv', ownWindows, { 2: ['2024-07-01', '2024-08-31', '2025-07-01', '2025-08-31'] })],
    [
      'walls.csv, row 2, column treated_on: found a treatment on 2024-06-03, expected none before its before window begins (2024-07-01)',
    ],
  ],
  [
    'windows of a wall that are not whole',
    [addColumns('walls.csv', ownWindows, { 2: ['2024-03-01', '2024-05-31', '', '2025-05-31'] })],
    [
      'walls.csv, row 2, column after_from: found nothing, expected all of before_from, before_to, after_from, after_to for a wall with windows of its own, or none of them',
    ],
  ],
  [
    'windows of a wall that run backwards, and overlap',
    [
      addColumns('walls.csv', ownWindows, {
        2: ['2024-03-01', '2024-02-29', '2025-03-01', '2025-05-31'],
        4: ['2024-03-01', '2025-03-01', '2025-03-01', '2025-05-31'],
      }),
    ],
    [
      'walls.csv, row 2, column before_to: found "2024-02-29", expected a day no earlier than before_from (2024-03-01)',
      'walls.csv, row 4, column after_from: found "2025-03-01", expected a day after before_to (2025-03-01)',
    ],
  ],
  [
    'sites as the units that hold both sides, or none',
    [
      protocol((value) => {
        value.allocation = { method: 'randomised', unit: 'site' };
      }),
      setCell('walls.csv', 5, 'site', ''),
    ],
    [
      'walls.csv, row 5, column site: found no site for wall "w4", expected a site for every wall of the comparison, as allocation.unit is site',
      'walls.csv, row 3, column site: found treated and untreated walls at site "cellar": w1, w2, expected walls of one side at each site, as allocation.unit is site; state "wall" there if single walls were allocated, or give parts of the site that were allocated by themselves names of their own',
    ],
  ],
  [
    'a pair with no block',
    [setCell('walls.csv', 4, 'block', '')],
    [
      'walls.csv, row 4, column block: found no block for wall "w3", expected a block for every wall, as allocation is matched-pairs',
    ],
  ],
  [
    'no blocks at all where walls are pairs',
    [put('walls.csv', 'wall,arm\nw1,treated\nw2,control\nw3,treated\nw4,control\n')],
    [
      'walls.csv, row 2, column block: found no block for any wall, expected a block for every wall, as allocation is matched-pairs',
    ],
  ],
  [
    'a pair with two treated walls',
    [setCell('walls.csv', 3, 'arm', 'treated')],
    [
      'walls.csv, row 3, column block: found two treated walls in block "a": w1, w2, expected one treated and one untreated wall in each block, as allocation is matched-pairs',
    ],
  ],
  [
    'three walls in a pair',
    [setCell('walls.csv', 4, 'block', 'a')],
    [
      'walls.csv, row 4, column block: found 3 walls in block "a": w1, w2, w3, expected one treated and one untreated wall in each block, as allocation is matched-pairs',
      'walls.csv, row 5, column block: found 1 wall in block "b": w4, expected one treated and one untreated wall in each block, as allocation is matched-pairs',
    ],
  ],
  [
    'blocks left out where walls were randomised in them',
    [
      protocol((plan) => {
        plan.allocation = { method: 'randomised-in-blocks' };
      }),
      setCell('walls.csv', 5, 'block', ''),
    ],
    [
      'walls.csv, row 5, column block: found no block for wall "w4", expected a block for every wall, as allocation is randomised-in-blocks',
    ],
  ],
];

const readings: readonly Case[] = [
  [
    'an unknown wall',
    [setCell('readings.csv', 7, 'wall', 'W 3')],
    [
      'readings.csv, row 7, column wall: found "W 3", expected a wall of walls.csv: w1, w2, w3 or w4; did you mean "w3"?',
    ],
  ],
  [
    'an unknown wall, near to several',
    [setCell('readings.csv', 7, 'wall', 'w5')],
    ['readings.csv, row 7, column wall: found "w5", expected a wall of walls.csv: w1, w2, w3 or w4'],
  ],
  [
    'no wall',
    [setCell('readings.csv', 7, 'wall', '')],
    ['readings.csv, row 7, column wall: found nothing, expected a wall of walls.csv: w1, w2, w3 or w4'],
  ],
  [
    'an unknown station',
    [setCell('readings.csv', 2, 'station', 'lwo')],
    [
      'readings.csv, row 2, column station: found "lwo", expected a station of wall "w1": low or high; did you mean "low"?',
    ],
  ],
  [
    'a station of another wall',
    [addLine('stations.csv', 'top,w1,1800,50'), setCell('readings.csv', 4, 'station', 'top')],
    [
      'readings.csv, row 4, column station: found "top", a station of wall "w1", expected a station of wall "w2": low or high',
    ],
  ],
  [
    'an unknown instrument',
    [setCell('readings.csv', 2, 'instrument', 'mv')],
    [
      'readings.csv, row 2, column instrument: found "mv", expected an instrument of protocol.json: core or mw; did you mean "mw"?',
    ],
  ],
  [
    'no instrument',
    [setCell('readings.csv', 2, 'instrument', '')],
    ['readings.csv, row 2, column instrument: found nothing, expected an instrument of protocol.json: core or mw'],
  ],
  [
    'a day that does not exist',
    [setCell('readings.csv', 10, 'date', '2024-02-30')],
    ['readings.csv, row 10, column date: found "2024-02-30", expected a day that exists: February 2024 has 29 days'],
  ],
  [
    'a month that does not exist',
    [setCell('readings.csv', 10, 'date', '2024-13-01')],
    ['readings.csv, row 10, column date: found "2024-13-01", expected a month from 01 to 12 (year, month, day)'],
  ],
  [
    'an hour that does not exist',
    [setCell('readings.csv', 10, 'date', '2024-03-01T24:30')],
    [
      'readings.csv, row 10, column date: found "2024-03-01T24:30", expected a date as YYYY-MM-DD, such as 2024-03-01, or with a time, such as 2024-03-01T08:30',
    ],
  ],
  [
    'a year out of reach',
    [setCell('readings.csv', 10, 'date', '0024-03-01')],
    ['readings.csv, row 10, column date: found "0024-03-01", expected a year from 1900 to 2199'],
  ],
  [
    'a date with strokes, day or month first',
    [setCell('readings.csv', 10, 'date', '03/04/2024')],
    [
      'readings.csv, row 10, column date: found 1 date such as "03/04/2024", which is 2024-04-03 with the day first and 2024-03-04 with the month first, expected YYYY-MM-DD, or the key dateOrder in the plan: day-first or month-first',
    ],
  ],
  [
    'a spreadsheet’s day number',
    [setCell('readings.csv', 10, 'date', '45376')],
    [
      'readings.csv, row 10, column date: found "45376", expected a date as YYYY-MM-DD, such as 2024-03-01, or with a time, such as 2024-03-01T08:30',
    ],
  ],
  [
    'no date',
    [setCell('readings.csv', 10, 'date', '')],
    ['readings.csv, row 10, column date: found nothing, expected a date as YYYY-MM-DD, such as 2024-03-01'],
  ],
  [
    'a value that is a word',
    [setCell('readings.csv', 3, 'value', 'wet')],
    [
      'readings.csv, row 3, column value: found "wet", expected a number, a detection limit such as <0.5, NA or nothing',
    ],
  ],
  [
    'a decimal comma among decimal points',
    [setCell('readings.csv', 3, 'value', '45,5')],
    [
      'readings.csv, row 3, column value: found "45,5", expected a number with a decimal point, as elsewhere in this table',
    ],
  ],
  [
    'a decimal point among decimal commas',
    [
      (files) => {
        files['readings.csv'] = String(files['readings.csv']).replaceAll(',', ';').replaceAll('.5', ',5');
      },
      replace('readings.csv', ';27,5;', ';27.5;'),
    ],
    [
      'readings.csv, row 23, column value: found "27.5", expected a number with a decimal comma, as elsewhere in this table',
      'readings.csv, row 36, column value: found "7.2", expected a number with a decimal comma, as elsewhere in this table',
    ],
  ],
  [
    'a value with a thousands separator',
    [setCell('readings.csv', 3, 'value', '1,045.5')],
    ['readings.csv, row 3, column value: found "1,045.5", expected a number without thousands separators'],
  ],
  [
    'a comma that may be decimal or group thousands',
    [put('readings.csv', 'date,wall,instrument,value\n2024-03-12,w1,mw,"1,200"\n2025-03-12,w1,mw,"2,300"\n')],
    [
      'readings.csv, row 2, column value: found "1,200", expected a number without thousands separators',
      'readings.csv, row 3, column value: found "2,300", expected a number without thousands separators',
    ],
  ],
  [
    'a value beyond all numbers',
    [setCell('readings.csv', 3, 'value', '1e400')],
    ['readings.csv, row 3, column value: found "1e400", expected a number of a size that can be measured'],
  ],
  [
    'a value beyond all measuring',
    [setCell('readings.csv', 3, 'value', '-3e200')],
    ['readings.csv, row 3, column value: found "-3e200", expected a number of a size that can be measured'],
  ],
  [
    'a hexadecimal value',
    [setCell('readings.csv', 3, 'value', '0x1F')],
    [
      'readings.csv, row 3, column value: found "0x1F", expected a number, a detection limit such as <0.5, NA or nothing',
    ],
  ],
  [
    'not a number, spelt out',
    [setCell('readings.csv', 3, 'value', 'NaN')],
    [
      'readings.csv, row 3, column value: found "NaN", expected a number, a detection limit such as <0.5, NA or nothing',
    ],
  ],
  [
    'a detection limit that is none',
    [setCell('readings.csv', 34, 'value', '<low')],
    ['readings.csv, row 34, column value: found "<low", expected a detection limit such as <0.5'],
  ],
  [
    'a detection limit below nothing',
    [setCell('readings.csv', 34, 'value', '<-0.5')],
    ['readings.csv, row 34, column value: found "<-0.5", expected a detection limit above 0, such as <0.5'],
  ],
  [
    'a value above the range',
    [setCell('readings.csv', 34, 'value', '>100')],
    [
      'readings.csv, row 34, column value: found ">100", expected a number, a detection limit such as <0.5, NA or nothing',
    ],
  ],
  [
    'a word for what the reader knew',
    [setCell('readings.csv', 5, 'knew_arm', 'ye')],
    ['readings.csv, row 5, column knew_arm: found "ye", expected yes, no or unsure; did you mean "yes"?'],
  ],
  [
    'the same reading twice',
    [addLine('readings.csv', '2024-03-12,w2,low,mw,61.50,Ada,yes')],
    [
      'readings.csv, row 37, column value: found the same reading as in row 4, expected each reading once; tell repeats of equal value apart by a time in the date or a further column such as repeat',
    ],
  ],
  [
    'the same reading twice although a further column is there',
    [
      (files) => {
        files['readings.csv'] =
          'date,wall,instrument,value,repeat\n2024-03-12,w1,mw,12,1\n2024-03-12,w1,mw,12,2\n2024-03-12,w1,mw,13,2\n2024-03-12,w1,mw,12,2\n';
      },
    ],
    [
      'readings.csv, row 5, column value: found the same reading as in row 3, expected each reading once; tell repeats of equal value apart by a time in the date or a further column such as repeat',
    ],
  ],
];

const cores: readonly Case[] = [
  [
    'a core lighter wet than dry',
    [setCell('cores.csv', 2, 'wet_g', '46.20')],
    [
      'cores.csv, row 2, column wet_g: found 46.2 g wet, lighter than 46.25 g dry, expected a wet mass no lighter than the dry one',
    ],
  ],
  [
    'more water than dry material: milligrams, or a container in one weighing only',
    [setCell('cores.csv', 2, 'wet_g', '51310')],
    [
      'cores.csv, row 2, column wet_g: found 51310 g wet and 46.25 g dry, more water than dry material, expected masses in grams, with the container in both or in neither',
    ],
  ],
  [
    'a dry core lighter than its container',
    [setCell('cores.csv', 2, 'container_g', '47.00')],
    [
      'cores.csv, row 2, column dry_g: found 46.25 g dry with the container, which alone weighs 47 g, expected a dry mass heavier than its container (masses include the container)',
    ],
  ],
  [
    'a core lighter humid than dry',
    [setCell('cores.csv', 3, 'humid_g', '46.00')],
    [
      'cores.csv, row 3, column humid_g: found 46 g at the stated humidity, lighter than 46.25 g dry, expected a mass no lighter than the dry one',
    ],
  ],
  [
    'a mass of nothing',
    [setCell('cores.csv', 4, 'dry_g', '0')],
    ['cores.csv, row 4, column dry_g: found "0", expected a mass in grams above 0'],
  ],
  [
    'a negative mass',
    [setCell('cores.csv', 4, 'wet_g', '-52.41')],
    ['cores.csv, row 4, column wet_g: found "-52.41", expected a mass in grams above 0'],
  ],
  [
    'a negative container',
    [setCell('cores.csv', 4, 'container_g', '-1')],
    ['cores.csv, row 4, column container_g: found "-1", expected the mass of the container in grams, 0 or more'],
  ],
  [
    'a mass below the detection limit',
    [setCell('cores.csv', 4, 'wet_g', '<0.5')],
    ['cores.csv, row 4, column wet_g: found "<0.5", expected a mass in grams above 0'],
  ],
  [
    'the same sample twice',
    [addLine('cores.csv', '2024-03-12,w2,low,c010,12.50,52.00,46.25,,,')],
    [
      'cores.csv, row 35, column sample: found the same core as in row 4, expected each core once, distinguished by its sample',
    ],
  ],
  [
    'a core without a name twice',
    [
      addLine('cores.csv', '2025-05-21,w4,low,,12.5,52,46.25,,,'),
      addLine('cores.csv', '2025-05-21,w4,low,,12.50,52.00,46.25,,Ben,no'),
    ],
    [
      'cores.csv, row 36, column wet_g: found the same core as in row 35, expected each core once, distinguished by its sample',
    ],
  ],
  [
    'an unknown station',
    [setCell('cores.csv', 2, 'station', 'hihg')],
    [
      'cores.csv, row 2, column station: found "hihg", expected a station of wall "w1": low or high; did you mean "high"?',
    ],
  ],
  [
    'no gravimetric instrument',
    [
      protocol((plan) => {
        plan.instruments = [
          { instrument: 'core', kind: 'direct' },
          { instrument: 'mw', kind: 'microwave' },
        ];
      }),
    ],
    [
      'protocol.json, line 23, key instruments: found no gravimetric instrument, expected exactly one, as there is a table of cores',
    ],
  ],
  [
    'cores with a unit that they cannot be computed in',
    [replace('protocol.json', '"unit": "% by mass"', '"unit": "kg/m3"')],
    [
      'protocol.json, line 5, key outcome: found the unit "kg/m3", expected a unit that cores can be computed in: % by mass, % by mass (dry basis), percent by mass, % by weight, % m/m, %, kg/kg, g/g or g/kg',
    ],
  ],
  [
    'two gravimetric instruments',
    [
      protocol((plan) => {
        plan.instruments = [
          { instrument: 'core', kind: 'gravimetric' },
          { instrument: 'mw', kind: 'gravimetric' },
        ];
      }),
    ],
    [
      'protocol.json, line 23, key instruments: found 2 gravimetric instruments, expected exactly one, as there is a table of cores',
    ],
  ],
];

const others: readonly Case[] = [
  [
    'a station twice',
    [addLine('stations.csv', 'low,w1,300,50')],
    [
      'stations.csv, row 10, column station: found the station "low" of wall "w1" again, after row 2, expected each station of a wall once',
    ],
  ],
  [
    'a station of an unknown wall',
    [addLine('stations.csv', 'low,w9x,300,50')],
    ['stations.csv, row 10, column wall: found "w9x", expected a wall of walls.csv: w1, w2, w3 or w4'],
  ],
  [
    'a negative depth',
    [setCell('stations.csv', 2, 'depth_mm', '-5')],
    ['stations.csv, row 2, column depth_mm: found "-5", expected a depth in mm of 0 or more'],
  ],
  [
    'relative humidity above what a hygrometer shows in saturated air',
    [setCell('climate.csv', 2, 'relative_humidity_pct', '105.1')],
    [
      'climate.csv, row 2, column relative_humidity_pct: found "105.1", expected a relative humidity in % above 1 and up to 100, or as a hygrometer shows it up to 105; 0.62 is 62 %, and a failed reading is left empty',
    ],
  ],
  [
    'negative relative humidity',
    [setCell('climate.csv', 2, 'relative_humidity_pct', '-1')],
    [
      'climate.csv, row 2, column relative_humidity_pct: found "-1", expected a relative humidity in % above 1 and up to 100, or as a hygrometer shows it up to 105; 0.62 is 62 %, and a failed reading is left empty',
    ],
  ],
  [
    'a temperature below absolute zero',
    [setCell('climate.csv', 3, 'temperature_c', '-300')],
    [
      'climate.csv, row 3, column temperature_c: found "-300", expected a temperature of air in °C from -90 to 60; turn kelvin or Fahrenheit into °C, and leave a failed reading empty',
    ],
  ],
  ...(['284.65', '68', '-127', '60.1', '-90.1'] as const).map(
    (value): Case => [
      `${value} degrees, in kelvin, in Fahrenheit or from a failed sensor`,
      [setCell('climate.csv', 2, 'temperature_c', value)],
      [
        `climate.csv, row 2, column temperature_c: found "${value}", expected a temperature of air in °C from -90 to 60; turn kelvin or Fahrenheit into °C, and leave a failed reading empty`,
      ],
    ],
  ),
  ...(['286.15', '60.1', '-45.1', 'wet', '55 °F'] as const).map(
    (value): Case => [
      `a surface of ${value}, in kelvin, beyond the formulae, in words or with its unit`,
      [put('climate.csv', `time,place,surface_c\n2024-03-01,yard,${value}\n2024-03-02,yard,13\n`)],
      [
        `climate.csv, row 2, column surface_c: found "${value}", expected the temperature of the wall’s surface in °C from -45 to 60; turn kelvin or Fahrenheit into °C, and leave a failed reading empty${value === '55 °F' ? ' without a unit' : ''}`,
      ],
    ],
  ),
  ...(['0', '0.78', '1'] as const).map(
    (value): Case => [
      `a relative humidity of ${value}, which is a share or nothing`,
      [setCell('climate.csv', 3, 'relative_humidity_pct', value)],
      [
        `climate.csv, row 3, column relative_humidity_pct: found "${value}", expected a relative humidity in % above 1 and up to 100, or as a hygrometer shows it up to 105; 0.62 is 62 %, and a failed reading is left empty`,
      ],
    ],
  ),
  [
    'rain that fell upward, in words, with its unit, heating below nothing',
    [
      put(
        'climate.csv',
        'time,place,rain_mm,heating_h\n2024-03-01,yard,-2,4\n2024-03-02,yard,much,4\n2024-03-03,yard,4 cm,-1\n2024-03-04,yard,NA,\n',
      ),
    ],
    [
      'climate.csv, row 2, column rain_mm: found "-2", expected rain in mm of 0 or more',
      'climate.csv, row 3, column rain_mm: found "much", expected rain in mm of 0 or more',
      'climate.csv, row 4, column rain_mm: found "4 cm", expected rain in mm of 0 or more without a unit',
      'climate.csv, row 4, column heating_h: found "-1", expected hours of heating of 0 or more',
    ],
  ],
  [
    'more hours of heating than there were',
    [
      put(
        'climate.csv',
        'time,place,heating_h\n2024-03-08,hall,100\n2024-03-01,hall,900\n2024-03-08,yard,900\n2024-03-09T06:00,hall,20\n2024-03-09T18:00,hall,30\n2024-03-15,hall,169\n',
      ),
    ],
    [
      'climate.csv, row 6, column heating_h: found "30", expected at most 24 hours a day since the row before of the same place (2024-03-08): hours for which the heating ran, not kilowatt-hours',
      'climate.csv, row 7, column heating_h: found "169", expected at most 24 hours a day since the row before of the same place (2024-03-09): hours for which the heating ran, not kilowatt-hours',
    ],
  ],
  [
    'a climate reading at no place',
    [setCell('climate.csv', 3, 'place', '')],
    ['climate.csv, row 3, column place: found nothing, expected where it was measured'],
  ],
  [
    'a climate reading at no time',
    [setCell('climate.csv', 3, 'time', 'noon')],
    [
      'climate.csv, row 3, column time: found "noon", expected a date as YYYY-MM-DD, such as 2024-03-01, or with a time, such as 2024-03-01T08:30',
    ],
  ],
  [
    'an unknown role',
    [setCell('blinding.csv', 2, 'role', 'readr')],
    ['blinding.csv, row 2, column role: found "readr", expected reader, occupant or analyst; did you mean "reader"?'],
  ],
  [
    'no role',
    [setCell('blinding.csv', 2, 'role', '')],
    ['blinding.csv, row 2, column role: found nothing, expected reader, occupant or analyst'],
  ],
  [
    'a belief in no arm',
    [setCell('blinding.csv', 3, 'believed_arm', 'unknwon')],
    [
      'blinding.csv, row 3, column believed_arm: found "unknwon", expected an arm of protocol.json, or unknown: treated, control or unknown; did you mean "unknown"?',
    ],
  ],
  [
    'a blinding note on an unknown wall',
    [setCell('blinding.csv', 3, 'wall', 'w2 ,x')],
    ['blinding.csv, row 3, column wall: found "w2 ,x", expected a wall of walls.csv: w1, w2, w3 or w4'],
  ],
  [
    'the same blinding note twice',
    [addLine('blinding.csv', '2025-03-11,Ada,reader,w1,control,')],
    ['blinding.csv, row 4, column person: found the same note as in row 2, expected each note once'],
  ],
  [
    'one person under two roles',
    [addLine('blinding.csv', '2025-03-12,Ada,occupant,w2,control,')],
    [
      'blinding.csv, row 4, column role: found "Ada" as occupant, and as reader in row 2, expected each person under one role',
    ],
  ],
  [
    'a note after the readings that it explains',
    [
      replace('blinding.csv', 'believed_arm,why', 'believed_arm,reading_date'),
      replace('blinding.csv', 'w1,control,', 'w1,control,2025-03-10'),
      replace('blinding.csv', '"said ""no idea"""', ''),
    ],
    [
      'blinding.csv, row 2, column date: found a note of 2025-03-11 on readings of 2025-03-10, expected a note made no later than the readings that it explains',
    ],
  ],
  [
    'neighbours that are no other walls',
    [
      replace('walls.csv', 'thickness_mm,treated_on', 'thickness_mm,neighbours'),
      replace('walls.csv', 'w1,treated,a,cellar,brick,240,2024-06-03', 'w1,treated,a,cellar,brick,240,w2 | w9'),
      replace(
        'walls.csv',
        'w3,treated,b,yard,"brick, lime mortar",365.5,2024-06-03',
        'w3,treated,b,yard,brick,365.5,w3',
      ),
    ],
    [
      'walls.csv, row 2, column neighbours: found "w9", expected names of other walls of walls.csv, with | between them',
      'walls.csv, row 4, column neighbours: found "w3", expected names of other walls of walls.csv, with | between them',
    ],
  ],
  [
    'an unknown kind of event',
    [setCell('diary.csv', 3, 'kind', 'heatng')],
    [
      'diary.csv, row 3, column kind: found "heatng", expected installed, heating, ventilation, plaster-stripped, replastered, leak, flood, sensor-moved, instrument-changed, unblinded or other; did you mean "heating"?',
    ],
  ],
  [
    'an event on an unknown wall',
    [setCell('diary.csv', 2, 'wall', 'cellar')],
    ['diary.csv, row 2, column wall: found "cellar", expected a wall of walls.csv: w1, w2, w3 or w4'],
  ],
  [
    'an event on no day',
    [setCell('diary.csv', 2, 'date', '2024-06')],
    [
      'diary.csv, row 2, column date: found "2024-06", expected a date as YYYY-MM-DD, such as 2024-03-01, or with a time, such as 2024-03-01T08:30',
    ],
  ],
];

describe.each([
  ['walls', walls],
  ['readings', readings],
  ['cores', cores],
  ['other tables', others],
])('checkTrial(folder), %s', (_, cases) => {
  it.each(cases)('refuses %s', async (_title, edits, lines) => {
    expect(await refusal(editedFolder(...edits))).toEqual(lines);
  });
});
