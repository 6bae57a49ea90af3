import writeWorkbook from 'write-excel-file/node';
import { planRows } from './plan-rows.js';
import { sheetsOf } from './spellings.js';

/** Sheets by name, each as rows of texts. Numbers and ISO dates become real ones in the workbook. */
export type Sheets = Readonly<Record<string, readonly (readonly string[])[]>>;

const walls = ['W1', 'W2', 'W3', 'W4', 'W5', 'W6', 'W7', 'W8'];
const visits = ['2024-03-14', '2024-04-18', '2025-03-13', '2025-04-17'];
const heights = [300, 900];

/** The plan of eight walls in four pairs, cored at two heights on four visits. */
const plan = {
  title: 'Eight walls of Mill Lane',
  claim: 'The cream lowers the moisture of the walls within a year',
  outcome: { instrument: 'core', quantity: 'moisture content', unit: '% by mass', better: 'lower' },
  margin: 1.5,
  confidence: 0.95,
  arms: [
    { arm: 'treated', role: 'treated' },
    { arm: 'control', role: 'control' },
  ],
  instruments: [
    { instrument: 'core', kind: 'gravimetric' },
    { instrument: 'mw', kind: 'microwave' },
  ],
  windows: { before: { from: '2024-03-01', to: '2024-05-31' }, after: { from: '2025-03-01', to: '2025-05-31' } },
  allocation: { method: 'matched-pairs', by: 'a person outside the trial' },
};

/** Moisture in per cent of the dry mass: higher below, each wall its own, and the treated ones lower afterwards. */
function moistureAt(wall: number, height: number, visit: number): number {
  const after = visit > 1;
  const own = ((wall * 37) % 11) / 5;
  const change = after ? (wall % 2 === 0 ? -1.8 - ((wall * 13) % 7) / 10 : -0.3 - ((wall * 29) % 5) / 10) : 0;
  return 6 + own + (height === 300 ? 2.5 : 0) + change + ((wall * 7 + visit * 3 + height / 300) % 4) / 10;
}

const isLost = (wall: number, height: number, visit: number) => wall === 1 && height === 900 && visit > 1;

/** The trial as the contract has it. Every other way of writing it down must come to the same numbers. */
export function habitTrial(): Record<'plan' | 'walls' | 'cores' | 'stations' | 'readings', string[][]> {
  const cores = [['date', 'wall', 'station', 'container_g', 'wet_g', 'dry_g', 'reader', 'knew_arm']];
  const readings = [['date', 'wall', 'station', 'instrument', 'value', 'reader', 'knew_arm']];
  for (const [visit, date] of visits.entries())
    for (const [index, wall] of walls.entries())
      for (const height of heights) {
        const tin = 30 + index;
        const dry = tin + 50;
        const moisture = moistureAt(index, height, visit);
        const wet = (dry + 0.5 * moisture).toFixed(2);
        const masses = isLost(index, height, visit) ? ['', ''] : [wet, `${dry}`];
        cores.push([date, wall, `h${height}`, `${tin}`, ...masses, 'Ada', 'no']);
        readings.push([date, wall, `h${height}`, 'mw', (10 * moisture).toFixed(1), 'Ben', 'no']);
      }
  return {
    plan: planRows(plan),
    walls: [
      ['wall', 'arm', 'block', 'treated_on'],
      ...walls.map((wall, index) => [
        wall,
        index % 2 === 0 ? 'treated' : 'control',
        `P${Math.floor(index / 2)}`,
        index % 2 === 0 ? '2024-06-03' : '',
      ]),
    ],
    stations: [
      ['station', 'wall', 'height_mm'],
      ...walls.flatMap((wall) => heights.map((height) => [`h${height}`, wall, `${height}`])),
    ],
    cores,
    readings,
  };
}

/** A column under another heading, its cells changed. */
export function recolumn(
  rows: readonly (readonly string[])[],
  column: string,
  heading: string,
  change: (cell: string, row: number) => string = (cell) => cell,
): string[][] {
  const index = rows[0]?.indexOf(column) ?? -1;
  if (index === -1) throw new Error(`no column ${column}`);
  return rows.map((row, at) =>
    row.map((cell, column) => (column !== index ? cell : at === 0 ? heading : change(cell, at))),
  );
}

export function withoutColumn(rows: readonly (readonly string[])[], column: string): string[][] {
  const index = rows[0]?.indexOf(column) ?? -1;
  return rows.map((row) => row.filter((_, at) => at !== index));
}

/** A folder with one workbook. */
export async function workbookOf(sheets: Sheets): Promise<Record<string, Uint8Array>> {
  const tables = Object.entries(sheets).map(([name, rows]) => [name, rows.map((row) => [...row])] as const);
  return { 'trial.xlsx': await writeWorkbook(sheetsOf(tables)).toBuffer() };
}
