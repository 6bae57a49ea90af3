import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkTrial, readTrial } from '../../src/records/index.js';
import { describeProblem, isTrialFolderError, type Trial } from '../../src/trial/index.js';
import { addColumns, addLine, editedFolder, protocol, put, remove, replace, setCell } from '../helpers/edit-folder.js';
import { type FolderFiles, inFolder, validFolder } from '../helpers/valid-folder.js';

const read = (files: FolderFiles): Promise<Trial> => inFolder(files, readTrial);

describe('readTrial(folder)', () => {
  it('gives what was planned as it stands in the protocol', async () => {
    const { format, ...planned } = JSON.parse(validFolder()['protocol.json'] ?? '') as Record<string, unknown>;
    expect(format).toBe('fairwall-trial/1');
    expect((await read(validFolder())).protocol).toEqual(planned);
  });

  it('gives a record for every row, with its row', async () => {
    const trial = await read(validFolder());
    const { walls, stations, readings, cores, climate, beliefs, events } = trial;
    const records = [walls, stations, readings, cores, climate, beliefs, events];
    expect(records.map((rows) => rows.length)).toEqual([4, 8, 35, 33, 3, 2, 2]);
    expect(walls[2]).toEqual({
      wall: 'w3',
      arm: 'treated',
      block: 'b',
      site: 'yard',
      material: 'brick, lime mortar',
      thickness_mm: 365.5,
      treatedOn: '2024-06-03',
      origin: { file: 'walls.csv', row: 4 },
    });
    expect(stations[1]).toEqual({
      station: 'high',
      wall: 'w1',
      height_mm: 1100.5,
      depth_mm: 50,
      origin: { file: 'stations.csv', row: 3 },
    });
    expect(cores[1]).toEqual({
      date: '2024-03-12',
      wall: 'w1',
      station: 'high',
      sample: 'c001',
      container_g: 12.5,
      wet_g: 51.31,
      dry_g: 46.25,
      humid_g: 46.9,
      reader: 'Ben',
      knewArm: 'no',
      origin: { file: 'cores.csv', row: 3 },
    });
    expect(climate[2]).toEqual({
      time: '2025-05-13T09:00+02:00',
      place: 'yard',
      relative_humidity_pct: 100,
      origin: { file: 'climate.csv', row: 4 },
    });
    expect(beliefs[1]).toEqual({
      date: '2025-03-11',
      person: 'Cleo',
      role: 'occupant',
      wall: 'w2',
      believedArm: 'unknown',
      why: 'said "no idea"',
      origin: { file: 'blinding.csv', row: 3 },
    });
    expect(events[1]).toEqual({
      date: '2024-11-02',
      kind: 'heating',
      note: 'boiler renewed',
      origin: { file: 'diary.csv', row: 3 },
    });
  });

  it('keeps a value below the detection limit and a missing one as what they are', async () => {
    const { readings, cores, walls } = await read(validFolder());
    expect(readings[0]?.value).toEqual({ kind: 'measured', value: 60.5 });
    expect(readings[32]?.value).toEqual({ kind: 'below-detection', limit: 0.5 });
    expect(readings[33]).toEqual({
      date: '2025-05-14',
      wall: 'w2',
      station: '',
      instrument: 'mw',
      value: { kind: 'missing' },
      reader: 'Ada',
      origin: { file: 'readings.csv', row: 35 },
    });
    expect(cores[32]).not.toHaveProperty('wet_g');
    expect(walls[3]).not.toHaveProperty('treatedOn');
  });

  it('passes over blank lines without shifting the count of rows', async () => {
    const files = editedFolder(replace('readings.csv', '\n2024-03-12,w1,high', '\n\n,,,,,,\n  \n2024-03-12,w1,high'));
    const { readings } = await read(files);
    expect(readings.map(({ origin }) => origin.row).slice(0, 3)).toEqual([2, 6, 7]);
    expect(readings).toHaveLength(35);
  });

  it('takes a header below blank lines, and counts them', async () => {
    const files = editedFolder(put('climate.csv', '\n;;;\ntime;place;temperature_c\n2024-03-12;yard;7,5\n'));
    expect((await read(files)).climate).toEqual([
      { time: '2024-03-12', place: 'yard', temperature_c: 7.5, origin: { file: 'climate.csv', row: 4 } },
    ]);
  });

  it('counts a cell of several lines as one row, as a spreadsheet does', async () => {
    const files = editedFolder(
      put('diary.csv', 'date,wall,kind,note\n2024-06-03,w1,installed,"two\nlines"\n2024-06-04,w3,installed,\n'),
    );
    expect((await read(files)).events.map(({ origin }) => origin.row)).toEqual([2, 3]);
  });

  it('ignores further columns, and lets them tell repeated readings of equal value apart', async () => {
    const repeats = 'date,wall,instrument,value,repeat\n2024-03-12,w1,mw,12,1\n2024-03-12,w1,mw,12,2\n';
    const { readings } = await read(editedFolder(put('readings.csv', repeats)));
    expect(readings.map(({ value }) => value)).toEqual([
      { kind: 'measured', value: 12 },
      { kind: 'measured', value: 12 },
    ]);
  });

  it('takes repeated readings of different value, reader or time, and missing ones', async () => {
    const repeats = [
      'date,wall,instrument,value,reader',
      ...[
        '2024-03-12,w1,mw,12,Ada',
        '2024-03-12,w1,mw,12.5,Ada',
        '2024-03-12,w1,mw,12,Ben',
        '2024-03-12,w1,mw,<12,Ada',
      ],
      ...['2024-03-12T09:00,w1,mw,12,Ada', '2024-03-12,w1,mw,NA,Ada', '2024-03-12,w1,mw,,Ada'],
    ];
    expect((await read(editedFolder(put('readings.csv', repeats.join('\n'))))).readings).toHaveLength(7);
  });

  it('takes any station name where no stations are listed', async () => {
    const files = editedFolder(remove('stations.csv'), addLine('readings.csv', '2025-05-16,w1,attic,mw,33,,'));
    const { stations, readings } = await read(files);
    expect(stations).toEqual([]);
    expect(readings.at(-1)?.station).toBe('attic');
  });

  it('takes a station name again on another wall', async () => {
    const { stations } = await read(validFolder());
    expect(stations.filter(({ station }) => station === 'low').map(({ wall }) => wall)).toEqual([
      'w1',
      'w2',
      'w3',
      'w4',
    ]);
  });

  it('needs no more than the protocol, the walls and readings or cores', async () => {
    const others = ['stations.csv', 'climate.csv', 'blinding.csv', 'diary.csv'];
    const readingsOnly = await read(editedFolder(remove(...others, 'cores.csv')));
    expect(readingsOnly.cores).toEqual([]);
    expect(readingsOnly.source).not.toHaveProperty('massStep_g');
    expect((await read(editedFolder(remove(...others, 'readings.csv')))).readings).toEqual([]);
  });

  it('reads a protocol without what may be left unsaid', async () => {
    const bare = protocol((plan) => {
      for (const key of ['margin', 'windows', 'plannedOn', 'compare', 'blinding', 'disclosures']) delete plan[key];
      plan.allocation = { method: 'chosen' };
    });
    const { protocol: planned } = await read(editedFolder(bare));
    for (const key of ['margin', 'windows', 'plannedOn', 'compare']) expect(planned).not.toHaveProperty(key);
    // Whoever is not said to have been kept from knowing may have known.
    expect(planned.blinding).toEqual({ readers: false, occupants: false, analyst: false });
    expect(planned.disclosures).toEqual({ funding: '', interests: '' });
    expect(planned.allocation).toEqual({ method: 'chosen', by: '' });
  });

  it('gives a wall the windows that walls.csv states for it, and no other wall', async () => {
    const own = editedFolder(
      addColumns('walls.csv', ['before_from', 'before_to', 'after_from', 'after_to'], {
        2: ['2024-07-01', '2024-08-31', '2025-07-01', '2025-08-31'],
      }),
      setCell('walls.csv', 2, 'treated_on', '2024-09-03'),
    );
    const { walls } = await read(own);
    expect(walls.map(({ windows }) => windows)).toEqual([
      { before: { from: '2024-07-01', to: '2024-08-31' }, after: { from: '2025-07-01', to: '2025-08-31' } },
      ...[undefined, undefined, undefined],
    ]);
  });

  it.each([
    ['2024-03-01', 'the first day of the before window'],
    ['2025-05-31', 'the last day of the after window'],
  ])('takes a treatment on %s, %s', async (day) => {
    const { walls } = await read(editedFolder(setCell('walls.csv', 2, 'treated_on', day)));
    expect(walls[0]?.treatedOn).toBe(day);
  });

  it('reads which unit was allocated, and takes whole sites on one side, in pairs too', async () => {
    const plan = protocol((value) => {
      value.allocation = { method: 'matched-pairs', unit: 'site' };
    });
    const inOneBlock = [2, 3, 4, 5].map((row) => setCell('walls.csv', row, 'block', 'a'));
    const swapped = [setCell('walls.csv', 3, 'arm', 'treated'), setCell('walls.csv', 4, 'arm', 'control')];
    const { protocol: planned, walls } = await read(editedFolder(plan, ...inOneBlock, ...swapped));
    expect(planned.allocation.unit).toBe('site');
    expect(walls.map(({ site }) => site)).toEqual(['cellar', 'cellar', 'yard', 'yard']);
  });

  it('takes an arm without a wall: that is a weakness, not bad input', async () => {
    const files = editedFolder(
      protocol((plan) => {
        plan.arms = [...(plan.arms as object[]), { arm: 'dummy box', role: 'sham' }];
      }),
    );
    expect((await read(files)).protocol.arms).toHaveLength(3);
  });

  it('ignores files and sub-folders that are not of the contract, near in name or not', async () => {
    await inFolder(
      editedFolder(put('readings_old.csv', 'x'), put('walls2.csv', '\0'), put('.hidden', '')),
      async (folder) => {
        await mkdir(join(folder, 'photos'));
        expect((await readTrial(folder)).walls).toHaveLength(4);
      },
    );
  });

  it('throws one TrialFolderError with all problems in its message', async () => {
    const files = editedFolder(remove('walls.csv'), replace('protocol.json', '0.95', '95'));
    const error: unknown = await read(files).catch((thrown: unknown) => thrown);
    if (!isTrialFolderError(error)) throw new Error('no TrialFolderError was thrown');
    expect(error.problems.map(({ file }) => file)).toEqual(['protocol.json', 'walls.csv']);
    expect(error.message).toBe(error.problems.map(describeProblem).join('\n'));
  });
});

describe('checkTrial(folder) refuses what is no folder', () => {
  const refusalOf = async (folder: string): Promise<string[]> => {
    const check = await checkTrial(folder);
    return check.kind === 'trial' ? [] : check.problems.map(describeProblem);
  };

  it('nothing there', async () => {
    await inFolder({}, async (folder) => {
      expect(await refusalOf(join(folder, 'garden'))).toEqual([
        `${join(folder, 'garden')}: found nothing there, expected a trial folder that can be read`,
      ]);
    });
  });

  it('a file', async () => {
    await inFolder(validFolder(), async (folder) => {
      expect(await refusalOf(join(folder, 'walls.csv'))).toEqual([
        `${join(folder, 'walls.csv')}: found a file, expected a folder that holds protocol.json, walls.csv and readings`,
      ]);
    });
  });

  it('an empty folder', async () => {
    expect(await inFolder({}, refusalOf)).toEqual([
      'protocol.json: found no such file, expected the plan of the trial: protocol.json, or a sheet plan (or plan.csv) with the columns key and answer',
      'walls.csv: found no such file or sheet, expected a table with one row a wall',
      'readings.csv: found neither readings.csv nor cores.csv, expected a table with one row a reading, or one row a core',
    ]);
  });

  it('a sub-folder in the place of a file', async () => {
    await inFolder(validFolder(), async (folder) => {
      await rm(join(folder, 'diary.csv'));
      await mkdir(join(folder, 'diary.csv'));
      expect(await refusalOf(folder)).toEqual([
        'diary.csv: found something that is not a file, expected a file of at most 256 MB',
      ]);
    });
  });

  it('several of them, in the order of their names', async () => {
    await inFolder(validFolder(), async (folder) => {
      const names = ['cores.csv', 'diary.csv', 'stations.csv', 'walls.csv'];
      for (const name of names.toReversed()) {
        await rm(join(folder, name));
        await mkdir(join(folder, name));
      }
      const found = (await refusalOf(folder)).filter((line) => line.includes('something that is not a file'));
      expect(found.map((line) => line.slice(0, line.indexOf(':')))).toEqual(names);
    });
  });

  it('the lock file of a spreadsheet program is no second workbook', async () => {
    await inFolder(validFolder(), async (folder) => {
      await writeFile(join(folder, '~$trial.xlsx'), 'x');
      expect(await refusalOf(folder)).toEqual([]);
    });
  });
});
