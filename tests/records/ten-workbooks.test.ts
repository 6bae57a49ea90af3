import { describe, expect, it } from 'vitest';
import { problemLines } from '../../src/command/problem-lines.js';
import { verdictOfTrial } from '../../src/opinion/verdict-of-trial.js';
import { checkTrial, readTrial } from '../../src/records/index.js';
import { describeNotUsed, type Trial } from '../../src/trial/index.js';
import { habitTrial, recolumn, type Sheets, withoutColumn, workbookOf } from '../helpers/habit-trial.js';
import { inFolder } from '../helpers/valid-folder.js';

// Workbooks of one invented trial, each written down as somebody would. In every round the folder is read; what is said then is mended,
// and nothing else. A round that gives a trial must give the right numbers.

/** What somebody does after a round: to the sheets, or to the plan. */
type Mending = (sheets: Sheets) => Sheets;

const inPlan =
  (...rows: readonly (readonly [string, string])[]): Mending =>
  (sheets) => ({ ...sheets, plan: [...(sheets.plan ?? []), ...rows] });

interface Habit {
  readonly title: string;
  readonly sheets: Sheets;
  readonly mendings: readonly Mending[];
  /** What of the lines of each round must be there. */
  readonly said: readonly (readonly string[])[];
  readonly notUsed?: readonly string[];
}

const { plan, walls, cores, stations, readings } = habitTrial();
const britishDate = (iso: string) => iso.split('-').reverse().join('/');
const early = (iso: string) => `${iso.slice(0, 8)}0${(Number(iso.slice(8)) % 9) + 1}`;

/** Heights down, positions across, a block a wall and day. */
function surveyed(): string[][] {
  const rows = readings.slice(1);
  const blocks = [...new Set(rows.map(([date, wall]) => `${date} ${wall}`))];
  return blocks.flatMap((block) => {
    const own = rows.filter(([date, wall]) => `${date} ${wall}` === block);
    const [date = '', wall = ''] = block.split(' ');
    return [
      ['Wall', wall, 'Date', date],
      ['Instrument', 'mw', 'Reader', 'Ben'],
      ['Height (mm) / position (mm)', '500', '', ''],
      ...own.map(([, , station = '', , value = '']) => [station.slice(1), value, '', '']),
      ['', '', '', ''],
    ];
  });
}

const byMeter = plan.map(([key = '', answer = '']) =>
  key === 'outcome.instrument' ? [key, 'mw'] : key === 'outcome.unit' ? [key, 'index'] : [key, answer],
);

const habits: readonly Habit[] = [
  {
    title: 'capitals, blanks and brackets in headings and names of sheets',
    sheets: {
      Plan: plan,
      'Walls ': recolumn(recolumn(walls, 'wall', ' Wall'), 'treated_on', 'Treated on'),
      CORES: recolumn(recolumn(recolumn(cores, 'container_g', 'Container (g)'), 'wet_g', 'Wet g'), 'date', 'DATE'),
      Stations: recolumn(stations, 'height_mm', 'Height (mm)'),
    },
    mendings: [],
    said: [],
    notUsed: ['the instrument "mw" of the plan: no reading of it'],
  },
  {
    title: 'a tare under a heading of its own',
    sheets: { plan, walls, stations, cores: recolumn(cores, 'container_g', 'Tin g') },
    mendings: [inPlan(['columns.cores.Tin g', 'container_g'])],
    said: [['column Tin g: found a column "Tin g" in g that is not read']],
  },
  {
    title: 'a tare under a heading that nobody knows',
    sheets: { plan, walls, stations, cores: recolumn(cores, 'container_g', 'Cup') },
    mendings: [inPlan(['columns.cores.Cup', 'container_g'])],
    said: [['column Cup: found numbers under "Cup" that are not read, and no mass of a container']],
  },
  {
    title: 'titles above, units and totals below, empty rows and columns, a remark',
    sheets: {
      plan,
      stations,
      walls: [['Mill Lane 4 – walls', '', '', ''], ['', '', '', ''], ...walls],
      cores: [
        ['Mill Lane 4 – drilled cores', '', '', '', '', '', '', '', ''],
        ...cores.map((row, at) => (at === 0 ? [...row, ''] : [...row, ''])).slice(0, 1),
        ['', '', '', 'g', 'g', 'g', '', '', ''],
        ...cores.slice(1, 20).map((row) => [...row, '']),
        ['', '', '', '', '', '', '', '', ''],
        ...cores.slice(20).map((row) => [...row, '']),
        ['Mean', '', '', '33.5', '86.9', '83.5', '', '', ''],
        ['Weighed on the old balance of the yard', '', '', '', '', '', '', '', ''],
      ],
    },
    mendings: [],
    said: [],
    notUsed: [
      'trial.xlsx / walls: row 1 (above the header)',
      'trial.xlsx / cores: row 1 (above the header)',
      'trial.xlsx / cores: row 3 (units)',
      'trial.xlsx / cores: row 69 (totals)',
      'trial.xlsx / cores: row 70 (note)',
      'the instrument "mw" of the plan: no reading of it',
    ],
  },
  {
    title: 'dates as text with the day first, which one of them shows',
    sheets: { plan, stations, walls, cores: recolumn(cores, 'date', 'date', britishDate) },
    mendings: [],
    said: [],
  },
  {
    title: 'dates as text that could be read both ways',
    sheets: { plan, stations, walls, cores: recolumn(cores, 'date', 'date', (date) => britishDate(early(date))) },
    mendings: [inPlan(['dateOrder', 'day-first'])],
    said: [['with the day first and']],
  },
  {
    title: 'YES, dashes, units behind numbers and arms in capitals',
    sheets: {
      plan,
      stations,
      walls: recolumn(
        recolumn(walls, 'arm', 'arm', (arm) => arm.toUpperCase()),
        'treated_on',
        'treated_on',
        (day) => day || '–',
      ),
      cores: recolumn(
        recolumn(
          recolumn(cores, 'knew_arm', 'knew_arm', () => 'NO'),
          'dry_g',
          'dry_g',
          (mass) => (mass === '' ? 'n/a' : `${mass} g`),
        ),
        'wall',
        'wall',
        (wall) => wall.toLowerCase(),
      ),
    },
    mendings: [],
    said: [],
  },
  {
    title: 'the height beside each core, and no stations',
    sheets: { plan, walls, cores: recolumn(cores, 'station', 'Height mm', (station) => station.slice(1)) },
    mendings: [],
    said: [],
  },
  {
    title: 'cores without their places, and heights in centimetres after that',
    sheets: { plan, walls, cores: withoutColumn(cores, 'station') },
    mendings: [
      (sheets) => ({
        ...sheets,
        cores: recolumn(cores, 'station', 'height_mm', (station) => `${Number(station.slice(1)) / 10} cm`),
      }),
      (sheets) => ({ ...sheets, cores: recolumn(cores, 'station', 'height_mm', (station) => station.slice(1)) }),
    ],
    said: [['cores without a station, several on one wall and day'], ['found "30 cm" in 32 rows']],
  },
  {
    title: 'a meter survey as grids',
    sheets: { plan: byMeter, walls, Grids: surveyed() },
    mendings: [],
    said: [],
  },
  {
    title: 'German sheets and headings, decimal commas as text',
    sheets: {
      plan: plan.filter(([key]) => key !== 'instruments.2.instrument' && key !== 'instruments.2.kind'),
      Wände: recolumn(recolumn(walls, 'wall', 'Wand'), 'arm', 'Gruppe'),
      Bohrkerne: ['container_g', 'wet_g', 'dry_g'].reduce(
        (rows, column) =>
          recolumn(
            rows,
            column,
            `${column === 'wet_g' ? 'nass' : column === 'dry_g' ? 'trocken' : 'Schale'} g`,
            (cell) => cell.replace('.', ','),
          ),
        recolumn(recolumn(cores, 'wall', 'Wand'), 'date', 'Datum'),
      ),
      stations,
      Wetter: [
        ['Tag', 'Regen'],
        ['2024-03-14', 'viel'],
      ],
    },
    mendings: [
      inPlan(
        ['sheets.Wände', 'walls'],
        ['sheets.Bohrkerne', 'cores'],
        ['columns.walls.Wand', 'wall'],
        ['columns.walls.Gruppe', 'arm'],
        ['columns.cores.Wand', 'wall'],
        ['columns.cores.Datum', 'date'],
        ['columns.cores.nass g', 'wet_g'],
        ['columns.cores.trocken g', 'dry_g'],
      ),
      inPlan(['columns.cores.Schale g', 'container_g'], ['ignore', 'Wetter']),
    ],
    said: [['walls.csv: found no such file or sheet'], ['found a column "Schale g" in g that is not read']],
    notUsed: ['trial.xlsx: sheet "Wetter", as the plan says'],
  },
];

const estimateOf = (trial: Trial) => {
  const { primary } = verdictOfTrial(trial, 1).facts;
  if (primary.kind !== 'estimated') throw new Error(primary.reason.code);
  const { estimate, interval } = primary.estimate;
  return [estimate, interval.lower, interval.upper];
};

/** The same trial as the contract has it, read by its cores or by its meter. */
async function rightNumbers(title: string) {
  const isMeter = title === 'a meter survey as grids';
  const tables = isMeter ? { plan: byMeter, walls, stations, readings } : { plan, walls, stations, cores };
  return estimateOf(await inFolder(await workbookOf(tables), readTrial));
}

describe('workbooks of one trial', () => {
  it('the right numbers are those of the formula: 50 g of dry brick, the lost core left out with its place', async () => {
    const [estimate] = await rightNumbers('');
    expect(estimate).toBeLessThan(-1);
    expect(estimate).toBeGreaterThan(-3);
  });

  it.each(habits)(
    '$title: the right numbers in at most three rounds, and never a wrong one',
    async ({ title, sheets, mendings, said, notUsed }) => {
      const right = await rightNumbers(title);
      const rounds: string[][] = [];
      let now = sheets;
      for (const mending of [...mendings, undefined]) {
        const check = await inFolder(await workbookOf(now), checkTrial);
        const lines = check.kind === 'problems' ? [...problemLines(check.problems)] : [];
        rounds.push(lines);
        expect(lines.length).toBeLessThanOrEqual(12);
        if (check.kind === 'trial') expect(estimateOf(check.trial)).toEqual(right);
        expect(check.kind === 'trial', lines.join('\n')).toBe(mending === undefined);
        if (check.kind === 'trial' && notUsed !== undefined)
          expect(check.ledger.notUsed.map(describeNotUsed)).toEqual(notUsed);
        if (mending !== undefined) now = mending(now);
      }
      expect(rounds.length).toBeLessThanOrEqual(3);
      for (const [round, pieces] of said.entries())
        for (const piece of pieces) expect(rounds[round]?.join('\n')).toContain(piece);
    },
  );
});
