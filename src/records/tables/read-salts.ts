import { present } from '../../plain/present.js';
import { type Problem, type Recorded, type SaltContents, type SaltSample, saltSchemeNames } from '../../trial/index.js';
import { type CellReader, cellReader } from '../cells/cell-reader.js';
import { choiceCell } from '../cells/choice-cell.js';
import { dayOrTimeCell } from '../cells/date-cell.js';
import { nameCell } from '../cells/name-cell.js';
import { recordedCell } from '../cells/number-cell.js';
import type { Table, TableRow } from '../folder/table.js';
import type { Known } from './known.js';
import { placeCells } from './places.js';

const share = 'a content in % by mass, from 0 to 100; 2000 mg/kg is 0.2';

/** The samples analysed for salts, in the order of the file, each once. */
export function readSalts(table: Table, known: Pick<Known, 'walls'>, problems: Problem[]): readonly SaltSample[] {
  const cells = cellReader(table, problems);
  const rowsBySample = new Map<string, number>();
  return table.rows.map((row) => {
    const sample = readSample(cells, row, known);
    const { origin: _, ...said } = sample;
    const key = JSON.stringify(said);
    const earlier = rowsBySample.get(key);
    if (earlier === undefined) rowsBySample.set(key, row.row);
    else cells.refuseAs(row, 'wall', `the same sample as in row ${earlier}`, 'each sample once');
    return sample;
  });
}

function readSample(cells: CellReader, row: TableRow, known: Pick<Known, 'walls'>): SaltSample {
  const date = dayOrTimeCell(cells, row, 'date');
  const wall = nameCell(cells, row, 'wall', known.walls);
  const { height_mm, depth_mm } = placeCells(cells, row) ?? {};
  const contents_pct = readContents(cells, row);
  const scheme = choiceCell(cells, row, 'scheme', saltSchemeNames);
  return {
    ...{ date, wall },
    ...present({ height_mm, depth_mm }),
    contents_pct,
    ...present({ scheme }),
    origin: cells.origin(row),
  };
}

function readContents(cells: CellReader, row: TableRow): SaltContents {
  const columns = ['chloride_pct', 'nitrate_pct', 'sulfate_pct'] as const;
  if (columns.every((column) => cells.text(row, column) === undefined))
    cells.refuseAs(row, 'chloride_pct', 'nothing in all three ions', 'the content of at least one ion, or <0.01');
  const [chloride, nitrate, sulfate] = columns.map((column) => contentCell(cells, row, column)) as [
    Recorded,
    Recorded,
    Recorded,
  ];
  const total = [chloride, nitrate, sulfate].reduce(
    (sum, each) => sum + (each.kind === 'measured' ? each.value : 0),
    0,
  );
  if (total > 100) cells.refuseAs(row, 'chloride_pct', `${total} % of salts together`, 'at most 100 % of the mass');
  return { chloride, nitrate, sulfate };
}

function contentCell(cells: CellReader, row: TableRow, column: string): Recorded {
  const content = recordedCell(cells, row, column);
  if (content.kind === 'missing') return content;
  const pct = content.kind === 'measured' ? content.value : content.limit;
  if (pct >= 0 && pct <= 100) return content;
  cells.refuse(row, column, share);
  return { kind: 'missing' };
}
