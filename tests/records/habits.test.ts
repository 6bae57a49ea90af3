import { describe, expect, it } from 'vitest';
import { checkTrial, readTrial } from '../../src/records/index.js';
import { describeMended, describeNotUsed, type Trial } from '../../src/trial/index.js';
import {
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
import { inFolder } from '../helpers/valid-folder.js';

const trialOf = (...edits: Edit[]): Promise<Trial> => inFolder(editedFolder(...edits), readTrial);
const ledgerOf = async (...edits: Edit[]) => (await inFolder(editedFolder(...edits), checkTrial)).ledger;
const mendedOf = async (...edits: Edit[]) => (await ledgerOf(...edits)).mended.map(describeMended);
const notUsedOf = async (...edits: Edit[]) => (await ledgerOf(...edits)).notUsed.map(describeNotUsed);

/** Cores of one wall on one day, and no stations.csv. */
const coresOnly = (header: string, ...rows: string[]): Edit[] => [
  remove('readings.csv', 'stations.csv'),
  put('cores.csv', [header, ...rows].join('\n')),
];

describe('dates', () => {
  it.each([
    ['25/03/2024', '2024-03-25'],
    ['3/25/2024', '2024-03-25'],
    ['1.3.2024', '2024-03-01'],
    ['2024/3/1', '2024-03-01'],
    ['14 Mar 2024', '2024-03-14'],
    ['March 14, 2024', '2024-03-14'],
    ['14th September 2024', '2024-09-14'],
    ['2024-03-25 08:30', '2024-03-25T08:30'],
    ['25/03/2024 8:30', '2024-03-25T08:30'],
    ['05/05/2024', '2024-05-05'],
  ])('%s is %s, and the ledger says so', async (text, iso) => {
    const edit = setCell('readings.csv', 10, 'date', text);
    expect((await trialOf(edit)).readings[8]?.date).toBe(iso);
    expect(await mendedOf(edit)).toEqual([`readings.csv, column date: "${text}" read as "${iso}", row 10`]);
  });

  it('one above 12 decides the whole column', async () => {
    const { readings } = await trialOf(
      setCell('readings.csv', 10, 'date', '03/04/2024'),
      setCell('readings.csv', 11, 'date', '13/04/2024'),
    );
    expect([readings[8]?.date, readings[9]?.date]).toEqual(['2024-04-03', '2024-04-13']);
    const american = await trialOf(
      setCell('readings.csv', 10, 'date', '03/04/2024'),
      setCell('readings.csv', 11, 'date', '04/13/2024'),
    );
    expect(american.readings[8]?.date).toBe('2024-03-04');
  });

  it('what stays open is one problem for the column, and the plan answers it', async () => {
    const open = [setCell('readings.csv', 10, 'date', '03/04/2024'), setCell('readings.csv', 11, 'date', '03/05/2024')];
    expect(await refusal(editedFolder(...open))).toEqual([
      expect.stringContaining('found 2 dates such as "03/04/2024"'),
    ]);
    const stated = (order: string) => protocol((plan) => Object.assign(plan, { dateOrder: order }));
    expect((await trialOf(...open, stated('day-first'))).readings[8]?.date).toBe('2024-04-03');
    expect((await trialOf(...open, stated('month-first'))).readings[8]?.date).toBe('2024-03-04');
  });

  it('a column with both orders is refused, with a row of each', async () => {
    const torn = [setCell('readings.csv', 10, 'date', '25/03/2024'), setCell('readings.csv', 11, 'date', '03/25/2024')];
    expect(await refusal(editedFolder(...torn))).toEqual([
      'readings.csv, row 11, column date: found "03/25/2024" with the month first, and in row 10 "25/03/2024" with the day first, expected one order in the whole column',
    ]);
  });

  it.each(['14/03/24', '31/02/2024', '25/13/2024', '14 Foo 2024'])('%s is refused', async (text) => {
    expect(await refusal(editedFolder(setCell('readings.csv', 10, 'date', text)))).toHaveLength(1);
  });
});

describe('numbers and words', () => {
  it.each([
    ['walls.csv', 'thickness_mm', '240 mm'],
    ['cores.csv', 'wet_g', '52.31 g'],
    ['readings.csv', 'value', '45.5%'],
    ['climate.csv', 'temperature_c', '11.5 °C'],
    ['readings.csv', 'knew_arm', 'NO'],
    ['readings.csv', 'knew_arm', 'y'],
    ['walls.csv', 'arm', 'Treated'],
    ['readings.csv', 'wall', 'W1'],
    ['readings.csv', 'station', 'LOW'],
    ['readings.csv', 'instrument', 'MW'],
  ])('%s, column %s: %s is read, and the ledger says so', async (file, column, text) => {
    expect(await refusal(editedFolder(setCell(file, 2, column, text)))).toEqual([]);
    expect(await mendedOf(setCell(file, 2, column, text))).toEqual([
      expect.stringContaining(`column ${column}: "${text}" read as`),
    ]);
  });

  it.each([
    ['walls.csv', 'thickness_mm', '24 cm'],
    ['cores.csv', 'wet_g', '0.05231 kg'],
    ['readings.csv', 'value', '1.2 k'],
    ['climate.csv', 'temperature_c', '52 °F'],
    ['readings.csv', 'knew_arm', 'jein'],
  ])('%s, column %s: %s is refused', async (file, column, text) => {
    expect(await refusal(editedFolder(setCell(file, 2, column, text)))).toHaveLength(1);
  });

  it('of two walls that differ in case alone, neither is meant by a third spelling', async () => {
    const walls = 'wall,arm,block\nw1,treated,a\nW1,control,a\n';
    const cores = 'date,wall,wet_g,dry_g\n2024-03-12,w1,52,46\n2024-03-12,W1,52,46\n';
    const edits = [remove('readings.csv', 'stations.csv', 'blinding.csv', 'diary.csv'), put('walls.csv', walls)];
    expect(await refusal(editedFolder(...edits, put('cores.csv', cores)))).toEqual([]);
    const third = cores.replace('W1', ' w1').replace('2024-03-12,w1', '2024-03-12,w 1');
    expect(await refusal(editedFolder(...edits, put('cores.csv', third)))).toHaveLength(1);
  });
});

describe('rows that are no records', () => {
  it.each([
    ['a row of units', (text: string) => text.replace('\n', '\n,,,,(g),g,g,,,\n'), 'row 2 (units)'],
    ['the header again', (text: string) => `${text}${text.split('\n')[0]}\n`, 'row 35 (header again)'],
    ['a mean', (text: string) => `${text}Mean,,,,12.5,51,46,,,\n`, 'row 35 (totals)'],
    ['a remark', (text: string) => `${text}Weighed on the old balance,,,,,,,,,\n`, 'row 35 (note)'],
    ['a title', (text: string) => `Cores of the cellar\n\n${text}`, 'row 1 (above the header)'],
  ])('%s is passed over and taken down', async (_, change, said) => {
    const edit: Edit = (files) => {
      files['cores.csv'] = change(String(files['cores.csv']));
    };
    expect(await notUsedOf(edit)).toEqual([`cores.csv: ${said}`]);
    expect((await trialOf(edit)).cores).toHaveLength(33);
  });

  it('a unit that is not the column’s is a problem', async () => {
    const edit = replace('cores.csv', '\n', '\n,,,,g,kg,g,,,\n');
    expect(await refusal(editedFolder(edit))).toEqual([
      'cores.csv, row 2, column wet_g: found the unit "kg", expected g',
    ]);
  });

  it('a wall or a block that is called total stays one', async () => {
    expect((await trialOf(addLine('diary.csv', '2024-11-03,w1,other,total'))).events).toHaveLength(3);
  });
});

describe('columns that are not known', () => {
  const tin: Edit = (files) => {
    const lines = String(files['cores.csv']).trim().split('\n');
    files['cores.csv'] = lines.map((line, at) => `${line},${at === 0 ? 'Tin g' : '30'}`).join('\n');
  };
  const named =
    (heading: string): Edit =>
    (files) => {
      tin(files);
      files['cores.csv'] = String(files['cores.csv']).replace('Tin g', heading);
    };

  it.each(['Tin g', 'Tare (g)', 'depth_cm', 'Voltage [mV]', 'beaker', 'Dish no 2'])(
    '%s must be mapped or set aside',
    async (heading) => {
      expect(await refusal(editedFolder(named(heading)))).toEqual([expect.stringContaining('that is not read')]);
    },
  );

  it.each(['Shelf', 'Weather', 'running', 'Bag_colour_g2'])('%s is named and no more', async (heading) => {
    expect(await notUsedOf(named(heading))).toEqual([`cores.csv: column "${heading}", 33 cells`]);
  });

  it('one in another unit cannot stand for a column', async () => {
    const map = protocol((plan) => Object.assign(plan, { columns: { cores: { depth_cm: 'depth_mm' } } }));
    expect(await refusal(editedFolder(named('depth_cm'), map))).toEqual([
      'cores.csv, row 1, column depth_cm: found the unit of "depth_cm" for depth_mm, expected values in mm, and a heading that says so',
    ]);
  });

  it('a listed one is set aside', async () => {
    const ignore = protocol((plan) => Object.assign(plan, { ignore: ['tin  G'] }));
    expect(await notUsedOf(tin, ignore)).toEqual(['cores.csv: column "Tin g", 33 cells, as the plan says']);
  });

  it('a mapped one is read, and not beside another of the same meaning', async () => {
    const map = protocol((plan) => Object.assign(plan, { columns: { cores: { 'Tin g': 'container_g' } } }));
    expect(await refusal(editedFolder(tin, map))).toEqual([
      'cores.csv, row 1, column Tin g: found the columns "container_g" and "Tin g", both container_g, expected it once',
    ]);
    const alone: Edit = (files) => {
      tin(files);
      files['cores.csv'] = String(files['cores.csv']).replace('container_g', 'old tin');
    };
    const ignored = protocol((plan) =>
      Object.assign(plan, { columns: { cores: { 'Tin g': 'container_g' } }, ignore: ['old tin'] }),
    );
    expect((await trialOf(alone, ignored)).cores[0]?.container_g).toBe(30);
  });

  describe('of numbers beside weighed cores without a container', () => {
    const renamed = (heading: string) => replace('cores.csv', 'container_g', heading);
    const plan = (keys: object) => protocol((all) => Object.assign(all, keys));
    /** One more column of the same cell in every row. */
    const further =
      (heading: string, cell: string): Edit =>
      (files) => {
        const lines = String(files['cores.csv']).trim().split('\n');
        files['cores.csv'] = lines.map((line, at) => `${line},${at === 0 ? heading : cell}`).join('\n');
      };

    it.each(['Cup', 'C', 'Leergewicht'])('%s is one problem, which asks what it is', async (heading) => {
      expect(await refusal(editedFolder(renamed(heading)))).toEqual([
        `cores.csv, row 1, column ${heading}: found numbers under "${heading}" that are not read, and no mass of a container, ` +
          'expected in the plan, under columns, that it is container_g, or its heading under ignore',
      ]);
    });

    it('two are one problem too', async () => {
      expect(await refusal(editedFolder(renamed('Cup'), further('Shelf', '3 g')))).toEqual([
        expect.stringMatching(/^cores\.csv, row 1: found numbers under "Cup", "Shelf" that are not read/),
      ]);
    });

    it('so is one where container_g is there and holds nothing', async () => {
      const empty: Edit = (files) => {
        files['cores.csv'] = String(files['cores.csv']).replaceAll(',12.50,', ',,');
      };
      expect(await refusal(editedFolder(empty, further('Cup', '12.5')))).toEqual([
        expect.stringContaining('numbers under "Cup"'),
      ]);
    });

    it('one that is mapped is the container, and one that is listed is named', async () => {
      const mapped = plan({ columns: { cores: { Cup: 'container_g' } } });
      expect((await trialOf(renamed('Cup'), mapped)).cores).toEqual((await trialOf()).cores);
      const listed = plan({ ignore: ['cup'] });
      expect((await trialOf(renamed('Cup'), listed)).cores[0]?.container_g).toBe(0);
      expect(await notUsedOf(renamed('Cup'), listed)).toEqual(['cores.csv: column "Cup", 33 cells, as the plan says']);
    });

    it.each([
      ['container_g', 'Cup', '12.5'],
      ['Notes', 'Moisture (%)', '11.2'],
      ['Notes', 'mc pct', '11.2'],
      ['Notes', 'Weather', 'rain'],
      ['Notes', 'Bag', 'B-12'],
    ])('beside %s, %s of %s is named and no more', async (container, heading, cell) => {
      const words: Edit = (files) => {
        if (container === 'Notes') files['cores.csv'] = String(files['cores.csv']).replaceAll(',12.50,', ',dry,');
      };
      const said = await notUsedOf(renamed(container), words, further(heading, cell));
      expect(said).toContain(`cores.csv: column "${heading}", 33 cells`);
    });
  });

  it.each([
    [{ columns: { cores: { Tin: 'containr_g' } } }, 'did you mean "container_g"?'],
    [{ columns: { core: { Tin: 'container_g' } } }, 'did you mean "cores"?'],
    [{ sheets: { Bohrkerne: 'core' } }, 'did you mean "cores"?'],
    [{ dateOrder: 'dayfirst' }, 'expected day-first or month-first'],
    [{ calibration: { days: 1 } }, 'no key "distance_mm"'],
    [{ placesOfCores: 'lost' }, 'expected unknown'],
  ])('the plan is refused with %j', async (keys, said) => {
    const lines = await refusal(editedFolder(protocol((plan) => Object.assign(plan, keys))));
    expect(lines).toEqual([expect.stringContaining(said)]);
  });
});

describe('places', () => {
  const header = 'date,wall,height_mm,position_mm,wet_g,dry_g';

  it('come from the rows, where there is no stations.csv', async () => {
    const { stations, cores } = await trialOf(
      ...coresOnly(header, '2024-03-12,w1,300,500,52,46', '2025-03-12,w1,300,500,51,46', '2024-03-12,w1,900,500,50,46'),
    );
    expect(stations).toMatchObject([
      { station: '300 mm high, at 500 mm', wall: 'w1', height_mm: 300, position_mm: 500 },
      { station: '900 mm high, at 500 mm', wall: 'w1', height_mm: 900, position_mm: 500 },
    ]);
    expect(cores[0]?.station).toBe(cores[1]?.station);
  });

  it('a station that stands at two heights is a problem', async () => {
    const rows = ['2024-03-12,w1,a,300,52,46', '2025-03-12,w1,a,310,51,46'];
    expect(await refusal(editedFolder(...coresOnly('date,wall,station,height_mm,wet_g,dry_g', ...rows)))).toEqual([
      'cores.csv, row 3, column height_mm: found 310 mm for station "a" of wall "w1", which has 300 mm in cores.csv, row 2, expected one place for each station',
    ]);
  });

  it('are found among those of stations.csv, by the same height and depth', async () => {
    const place = (height: string): Edit =>
      put('cores.csv', `date,wall,height_mm,depth_mm,wet_g,dry_g\n2024-03-12,w1,${height},50,52,46\n`);
    expect((await trialOf(place('200'))).cores[0]?.station).toBe('low');
    expect((await trialOf(place('201'))).cores[0]?.station).toBe('201 mm high, 50 mm deep');
  });

  it('several cores of a wall and day ask for them, one does not, and the plan may say that nobody knows', async () => {
    const one = coresOnly('date,wall,sample,wet_g,dry_g', '2024-03-12,w1,a,52,46');
    const two = coresOnly('date,wall,sample,wet_g,dry_g', '2024-03-12,w1,a,52,46', '2024-03-12T10:00,w1,b,51,46');
    const unknown = protocol((plan) => Object.assign(plan, { placesOfCores: 'unknown' }));
    expect(await refusal(editedFolder(...one))).toEqual([]);
    expect(await refusal(editedFolder(...two))).toEqual([expect.stringContaining('found 2 cores without a station')]);
    expect(await refusal(editedFolder(...two, unknown))).toEqual([]);
    expect(await notUsedOf(...two, unknown)).toContainEqual(expect.stringContaining('the places of 2 cores'));
  });
});

describe('grids', () => {
  const block = ['wall,w1,date,2024-03-12', 'instrument,mw,reader,Ada', 'height_mm,0,500', '900,31.5,', '300,<5,61.4'];
  const grids = (...lines: string[]): Edit[] => [
    remove('readings.csv', 'stations.csv'),
    put('grids.csv', lines.join('\n')),
  ];

  it('are readings with their places', async () => {
    const { readings, stations } = await trialOf(
      ...grids(...block, ',,', ...block.map((line) => line.replace('w1', 'w2'))),
    );
    expect(readings).toHaveLength(6);
    expect(readings[1]).toMatchObject({
      date: '2024-03-12',
      wall: 'w1',
      instrument: 'mw',
      reader: 'Ada',
      value: { kind: 'below-detection', limit: 5 },
    });
    expect(stations).toContainEqual(expect.objectContaining({ wall: 'w2', height_mm: 300, position_mm: 500 }));
  });

  it('stand beside readings.csv', async () => {
    const beside = await trialOf(put('grids.csv', block.join('\n')));
    expect(beside.readings.length).toBe((await trialOf()).readings.length + 3);
  });

  it.each([
    ['a block without its day', block.map((line) => line.replace(',date,2024-03-12', ',,')), 'a block without date'],
    ['a value below no position', [...block, '100,1,2,3'], '"3" below no position'],
    ['a position twice', block.map((line) => line.replace('0,500', '500,500')), 'the position "500" twice'],
    ['a word in the place of a value', block.map((line) => line.replace('31.5', 'wet')), 'found "wet"'],
    ['a wall that there is not', block.map((line) => line.replace('w1', 'w9')), 'found "w9"'],
    ['a label that is none', block.map((line) => line.replace('reader', 'person')), 'found "person"'],
    [
      'days that could be read both ways',
      block.map((line) => line.replace('2024-03-12', '03/04/2024')),
      'with the day first',
    ],
    ['no block', ['a,b', 'c,d'], 'no block of readings'],
  ])('are refused with %s', async (_, lines, said) => {
    const found = await refusal(editedFolder(...grids(...lines)));
    expect(found.join('\n')).toContain(said);
    expect(found.every((line) => line.startsWith('grids.csv'))).toBe(true);
  });
});
