import type { ArmMeans, WallChange } from '../../analysis/index.js';
import { paddedDomain } from '../../charts/frame.js';
import { type BeforeAfterChartData, beforeAfterChart, describeBeforeAfterChart } from '../../charts/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { formatNumber, formatSigned } from '../../words/format-number.js';
import { type Figure, paragraph, quoted, type Section, type Table } from '../document.js';
import { outcomeDecimals } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';

/** More rows than these do not fit one sheet of paper. */
const mostWallsInChart = 60;
/** Longer names are cut in the charts, so that every wall then carries its number in the table. */
const longName = 18;

interface ArmWalls extends Pick<ArmMeans, 'arm' | 'side'> {
  readonly walls: readonly WallChange[];
}

/** Each wall's before and after: the points, then the table behind them. */
export function wallsSection(opinion: Opinion): Section | undefined {
  if (opinion.walls.length === 0) return undefined;
  const arms = opinion.arms.map(({ arm, side }) => ({
    arm,
    side,
    walls: opinion.walls.filter((wall) => wall.arm === arm),
  }));
  const decimals = outcomeDecimals(opinion);
  const isRead = opinion.walls.every(({ before }) => before !== undefined);
  return {
    id: 'walls',
    heading: 'Wall by wall',
    blocks: [
      paragraph(
        isRead
          ? 'Each wall counts once: its before and its after are means over its stations that have both.'
          : 'Each wall counts once, by the mean of its stations after the treatment: none was read before it.',
      ),
      ...(isRead ? [wallsFigure(opinion, arms, decimals)] : []),
      wallsTable(opinion, arms, decimals),
    ],
  };
}

function wallsFigure(opinion: Opinion, arms: readonly ArmWalls[], decimals: number): Figure {
  const { quantity, unit } = opinion.protocol.outcome;
  const domain = paddedDomain(opinion.walls.flatMap((wall) => [wall.before ?? wall.after, wall.after]));
  const charts = sheets(numbered(arms)).map((groups, index, all) => {
    const part = all.length === 1 ? '' : `, part ${index + 1} of ${all.length}`;
    const data: BeforeAfterChartData = {
      title: `Each wall’s before and after${part}`,
      groups,
      quantity,
      unit,
      decimals,
      domain,
    };
    return {
      wide: beforeAfterChart(data),
      narrow: beforeAfterChart(data, { width: narrowWidth }),
      description: describeBeforeAfterChart(data),
    };
  });
  return {
    kind: 'figure',
    caption: `Before and after of every wall in the comparison, ${quantity} in ${unit}. A long line is a large change.`,
    charts,
  };
}

type Groups = BeforeAfterChartData['groups'];

function numbered(arms: readonly ArmWalls[]): Groups {
  const cut = arms.some((arm) => arm.walls.some((wall) => wall.wall.length > longName));
  let number = 0;
  return arms.map(({ arm, walls }) => ({
    label: arm,
    walls: walls.map(({ wall, before, after }) => {
      number += 1;
      return { wall: cut ? `${number} ${wall}` : wall, before: before ?? after, after };
    }),
  }));
}

/** One chart where all walls fit a sheet, else one or more for each arm. */
function sheets(groups: Groups): readonly Groups[] {
  const total = groups.reduce((count, group) => count + group.walls.length, 0);
  if (total <= mostWallsInChart) return [groups];
  return groups.flatMap((group, style) =>
    chunks(group.walls, mostWallsInChart).map((walls) => [{ label: group.label, walls, style }]),
  );
}

function chunks<T>(items: readonly T[], size: number): T[][] {
  return Array.from({ length: Math.ceil(items.length / size) }, (_, index) =>
    items.slice(index * size, (index + 1) * size),
  );
}

function wallsTable({ protocol }: Opinion, arms: readonly ArmWalls[], decimals: number): Table {
  const walls = arms.flatMap((arm) => arm.walls);
  const blocks = walls.some((wall) => wall.block !== '');
  return {
    kind: 'table',
    caption: `The walls in the comparison, ${protocol.outcome.quantity} in ${protocol.outcome.unit}`,
    columns: [
      { header: 'Wall' },
      { header: 'No.', look: 'number' },
      { header: 'Arm' },
      ...(blocks ? [{ header: 'Block' }] : []),
      { header: 'Stations', look: 'number' },
      { header: 'Before', look: 'number' },
      { header: 'After', look: 'number' },
      { header: 'Change', look: 'number' },
    ],
    rows: walls.map((wall, index) => [
      [quoted(wall.wall)],
      [`${index + 1}`],
      [quoted(wall.arm)],
      ...(blocks ? [[wall.block === '' ? 'none' : quoted(wall.block)]] : []),
      [`${wall.stations}`],
      [wall.before === undefined ? 'none' : formatNumber(wall.before, decimals)],
      [formatNumber(wall.after, decimals)],
      [wall.before === undefined ? 'none' : formatSigned(wall.change, decimals)],
    ]),
  };
}
