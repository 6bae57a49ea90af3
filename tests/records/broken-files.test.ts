import { expect, it } from 'vitest';
import { addLine, type Edit, editedFolder, put, refusal, remove, rename, replace } from '../helpers/edit-folder.js';
import { ofSweep } from '../helpers/sweep.js';
import { validFolder } from '../helpers/valid-folder.js';

const whole = validFolder();
const bytesOf = (name: string) => new TextEncoder().encode(whole[name]);

const cases: readonly [string, readonly Edit[], readonly string[]][] = [
  [
    'no protocol',
    [remove('protocol.json')],
    [
      'protocol.json: found no such file, expected the plan of the trial: protocol.json, or a sheet plan (or plan.csv) with the columns key and answer',
    ],
  ],
  ['no walls', [remove('walls.csv')], ['walls.csv: found no such file or sheet, expected a table with one row a wall']],
  [
    'neither readings nor cores',
    [remove('readings.csv', 'cores.csv')],
    [
      'readings.csv: found neither readings.csv nor cores.csv, expected a table with one row a reading, or one row a core',
    ],
  ],
  [
    'a file name with a slip',
    [rename('readings.csv', 'reading.csv')],
    [
      'reading.csv: found a name that is nearly "readings.csv", which is not there, expected that name exactly, or one less like it; did you mean "readings.csv"?',
    ],
  ],
  [
    'a file name in capitals',
    [rename('walls.csv', 'Walls.csv')],
    [
      'Walls.csv: found a name that is nearly "walls.csv", which is not there, expected that name exactly, or one less like it; did you mean "walls.csv"?',
    ],
  ],
  [
    'a file name with another ending',
    [rename('diary.csv', 'diary.csv.txt')],
    [
      'diary.csv.txt: found a name that is nearly "diary.csv", which is not there, expected that name exactly, or one less like it; did you mean "diary.csv"?',
    ],
  ],
  [
    'a protocol with a slip in its name',
    [rename('protocol.json', 'protocoll.json')],
    [
      'protocoll.json: found a name that is nearly "protocol.json", which is not there, expected that name exactly, or one less like it; did you mean "protocol.json"?',
    ],
  ],
  [
    'an empty file',
    [put('readings.csv', '')],
    [
      'readings.csv: found an empty file, expected a header row with at least the columns date, wall, instrument, value',
    ],
  ],
  [
    'a byte-order mark and nothing else',
    [put('walls.csv', '\uFEFF\r\n')],
    ['walls.csv: found an empty file, expected a header row with at least the columns wall, arm'],
  ],
  [
    'an empty protocol',
    [put('protocol.json', '')],
    ['protocol.json: found an empty file, expected one JSON object, { … }'],
  ],
  [
    'binary data',
    [put('cores.csv', Uint8Array.from([...bytesOf('cores.csv').slice(0, 150), 0, 1, 2, 3]))],
    [
      'cores.csv, row 3: found binary data, expected text in UTF-8: a header row with at least the columns date, wall, wet_g, dry_g',
    ],
  ],
  [
    'a picture',
    [put('diary.csv', Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0]))],
    ['diary.csv, row 2: found binary data, expected text in UTF-8: a header row with at least the columns date, kind'],
  ],
  [
    'a workbook under the name of a CSV file',
    [put('walls.csv', Uint8Array.from([0x50, 0x4b, 3, 4, 20, 0]))],
    [
      'walls.csv: found a workbook or another packed file under this name, expected text in UTF-8: a header row with at least the columns wall, arm',
    ],
  ],
  [
    'a workbook of the older kind',
    [put('walls.csv', Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1]))],
    [
      'walls.csv: found a workbook of the older kind (.xls) under this name, expected text in UTF-8: a header row with at least the columns wall, arm',
    ],
  ],
  [
    'UTF-16',
    [put('walls.csv', Uint8Array.from([0xff, 0xfe, ...Buffer.from(whole['walls.csv'] ?? '', 'utf16le')]))],
    [
      'walls.csv: found text in UTF-16 ("Unicode text"), expected text in UTF-8: a header row with at least the columns wall, arm',
    ],
  ],
  [
    'Latin letters of one byte',
    [put('diary.csv', Uint8Array.from(Buffer.from('date,wall,kind,note\n2024-06-03,w1,installed,Büro\n', 'latin1')))],
    [
      'diary.csv, row 2: found a letter in another encoding than UTF-8, expected text in UTF-8 (in a spreadsheet program, save as "CSV UTF-8")',
    ],
  ],
  [
    'a header only',
    [put('walls.csv', 'wall,arm\n')],
    ['walls.csv: found a header and no walls, expected a row for each wall'],
  ],
  [
    'headers only in both tables of observations',
    [put('readings.csv', 'date,wall,instrument,value\n'), put('cores.csv', 'date,wall,wet_g,dry_g\n')],
    ['readings.csv: found a header and no rows, expected at least one reading or core'],
  ],
  [
    'no header',
    [replace('stations.csv', 'station,wall,height_mm,depth_mm\n', '')],
    [
      'stations.csv, row 1, column station: found no such column in the header "low, w1, 200, 50", expected the columns station, wall',
      'stations.csv, row 1, column wall: found no such column in the header "low, w1, 200, 50", expected the columns station, wall',
    ],
  ],
  [
    'a file cut off in a row',
    [put('readings.csv', (whole['readings.csv'] ?? '').slice(0, -24))],
    ['readings.csv, row 36: found 1 cell (the file may have been cut off), expected 7 cells as in the header'],
  ],
  [
    'a file cut off in a quoted cell',
    [put('walls.csv', (whole['walls.csv'] ?? '').slice(0, -16))],
    [
      'walls.csv, row 5: found an opening quote without a closing one (the file may have been cut off), expected quotes in pairs around a whole cell, and a quote inside a cell written twice',
    ],
  ],
  [
    'a row with a cell too few',
    [replace('readings.csv', '2024-03-12,w2,low,mw,61.5,Ada,no', '2024-03-12,w2,mw,61.5,Ada,no')],
    ['readings.csv, row 4: found 6 cells, expected 7 cells as in the header'],
  ],
  [
    'decimal commas without quotes between commas',
    [replace('readings.csv', ',62.5,', ',62,5,')],
    [
      'readings.csv, row 6: found 8 cells, expected 7 cells as in the header; a comma inside a cell needs quotes around the cell',
    ],
  ],
  [
    'a quote in the middle of a cell',
    [replace('blinding.csv', '"said ""no idea"""', '"said "no idea""')],
    [
      'blinding.csv, row 3: found a closing quote in the middle of a cell, expected quotes in pairs around a whole cell, and a quote inside a cell written twice',
    ],
  ],
  [
    'an opening quote and no closing one',
    [replace('cores.csv', 'w2,low,c010', 'w2,"low,c010')],
    [
      'cores.csv, row 4: found an opening quote without a closing one (the file may have been cut off), expected quotes in pairs around a whole cell, and a quote inside a cell written twice',
    ],
  ],
  [
    'a needed column left out',
    [replace('readings.csv', 'instrument,value', 'instrument,reading')],
    [
      'readings.csv, row 1, column value: found no such column in the header "date, wall, station, instrument, reading, reader, knew_arm", expected the columns date, wall, instrument, value',
    ],
  ],
  [
    'a needed column with a slip',
    [replace('walls.csv', 'wall,arm,', 'wall,amr,')],
    [
      'walls.csv, row 1, column arm: found a column "amr" and none of this name, expected the columns wall, arm, block, site, material, exposure, thickness_mm, area_m2, dry_density_kg_m3, saturated_pct, treated_on, before_from, before_to, after_from, after_to, neighbours, and further ones only under names less like these; did you mean "arm"?',
    ],
  ],
  [
    'an optional column with a slip, which would go unnoticed',
    [replace('readings.csv', 'knew_arm', 'knew arms')],
    [
      'readings.csv, row 1, column knew_arm: found a column "knew arms" and none of this name, expected the columns date, wall, instrument, value, station, height_mm, depth_mm, position_mm, reader, knew_arm, lead, and further ones only under names less like these; did you mean "knew_arm"?',
    ],
  ],
  [
    'a column without its unit',
    [replace('stations.csv', 'height_mm', 'height')],
    [
      'stations.csv, row 1, column height_mm: found a column "height" and none of this name, expected the columns station, wall, height_mm, depth_mm, depth_from_mm, depth_to_mm, position_mm, sensor, and further ones only under names less like these; did you mean "height_mm"?',
    ],
  ],
  [
    'a column twice',
    [replace('readings.csv', 'station,instrument', 'wall,instrument')],
    ['readings.csv, row 1, column wall: found the column "wall" twice, expected it once'],
  ],
  [
    'tabs between the cells',
    [put('diary.csv', 'date\twall\tkind\tnote\n2024-06-03\tw1\tinstalled\t\n')],
    ['diary.csv, row 1: found tabs between the cells, expected commas or semicolons between the cells'],
  ],
  [
    'all that is wrong in all files at once',
    [
      put('protocol.json', '{'),
      replace('walls.csv', 'w4,control', 'w4,contol'),
      addLine('climate.csv', '2024-02-30,yard,,'),
      rename('diary.csv', 'dairy.csv'),
    ],
    [
      'protocol.json, line 1, column 2: found the end of the file (it may have been cut off), expected a closing brace }',
      'dairy.csv: found a name that is nearly "diary.csv", which is not there, expected that name exactly, or one less like it; did you mean "diary.csv"?',
      'climate.csv, row 5, column time: found "2024-02-30", expected a day that exists: February 2024 has 29 days',
    ],
  ],
];

it.each(cases)('checkTrial(folder) refuses %s', async (_, edits, lines) => {
  expect(await refusal(editedFolder(...edits))).toEqual(lines);
});

const manyWalls = Array.from({ length: 20_000 }, (_, index) => `wall ${index}`);
const keys = ofSweep(10_000, 2_500);
const unknownKeys = `{${manyWalls.slice(0, keys).map((name) => `"${name}":1`)}}`;
const unknownWalls = ['date,wall,instrument,value', ...manyWalls.map((name) => `2024-03-12,${name},mw,1`)].join('\n');
const onePair = ['wall,arm,block', ...manyWalls.map((name) => `${name},treated,a`)].join('\n');

it.each([
  ['a protocol of unknown keys', put('protocol.json', unknownKeys), `the unknown key "wall ${keys - 1}"`],
  ['a protocol that is a table', put('protocol.json', unknownWalls.slice(0, 250_000)), 'found "date"'],
  ['twenty thousand unknown walls', put('readings.csv', unknownWalls), 'row 20001, column wall: found "wall 19999"'],
  ['twenty thousand walls in one pair', put('walls.csv', onePair), 'found 20000 walls in block "a": wall 0, wall 1,'],
])('checkTrial(folder) is not held up by %s', async (_, edit, found) => {
  const start = performance.now();
  const lines = await refusal(editedFolder(edit));
  expect(performance.now() - start).toBeLessThan(5000);
  expect(lines.some((line) => line.includes(found))).toBe(true);
});

it('checkTrial(folder) blames no reading for a wall or station whose own row was refused', async () => {
  const short = editedFolder(
    replace('walls.csv', 'w2,control,a,', 'w2,control,'),
    replace('stations.csv', 'low,w1,200,50', 'low,w1'),
  );
  expect(await refusal(short)).toEqual([
    'walls.csv, row 3: found 6 cells, expected 7 cells as in the header',
    'stations.csv, row 2: found 2 cells, expected 4 cells as in the header',
  ]);
});

it('checkTrial(folder) refuses a protocol beyond all measure', async () => {
  expect(await refusal(editedFolder(put('protocol.json', ' '.repeat(300 * 1024))))).toEqual([
    'protocol.json: found 300 kB, expected a file of at most 256 kB',
  ]);
});
