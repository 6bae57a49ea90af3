import type { ArmMeans, WallChange } from '../../analysis/index.js';
import {
  type ChangesChartData,
  type ChangesChartGroup,
  changesChart,
  changesDomain,
  describeChangesChart,
} from '../../charts/index.js';
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

/** Each wall's change: the points, then the table behind them. */
export function wallsSection(opinion: Opinion): Section | undefined {
  if (opinion.walls.length === 0) return undefined;
  const arms = armWalls(opinion);
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
      wallsFigure(opinion, decimals),
      wallsTable(opinion, arms, decimals),
    ],
  };
}

function wallsFigure(opinion: Opinion, decimals: number): Figure {
  const { quantity, unit } = opinion.protocol.outcome;
  const { margin, confidence } = opinion.protocol;
  const { arms, marginAt } = opinion.changes;
  const isRead = opinion.walls.every(({ before }) => before !== undefined);
  const nameOf = namesInChart(opinion);
  const groups = arms.map(({ arm, side, walls, mean }, style): ChangesChartGroup => {
    return {
      ...{ style, label: arm, mean: mean.mean, isTreated: side === 'treated' },
      ...(mean.interval === undefined ? {} : { lower: mean.interval.lower, upper: mean.interval.upper }),
      walls: walls.map((wall) => ({ ...numbersOf(wall), wall: nameOf(wall.wall) })),
    };
  });
  const all: Omit<ChangesChartData, 'groups' | 'title'> = {
    ...(margin === undefined || marginAt === undefined ? {} : { margin: { at: marginAt, margin } }),
    ...{ quantity, unit, decimals, level: confidence },
  };
  const domain = changesDomain({ groups, ...all });
  const charts = sheets(groups).map((part, index, parts) => {
    const title = `The ${isRead ? 'change' : 'after value'} of every wall`;
    const data: ChangesChartData = {
      ...{ ...all, groups: part, domain },
      title: parts.length === 1 ? title : `${title}, part ${index + 1} of ${parts.length}`,
    };
    return {
      wide: changesChart(data),
      narrow: changesChart(data, { width: narrowWidth }),
      description: describeChangesChart(data),
    };
  });
  const hasIntervals = arms.some(({ mean }) => mean.interval !== undefined);
  return { kind: 'figure', caption: captionOf(opinion, hasIntervals), charts };
}

function captionOf({ protocol, units, primary }: Opinion, hasIntervals: boolean): string {
  const { quantity, unit } = protocol.outcome;
  const means =
    units.kind === 'wall' ? '' : ` An arm’s mean counts each ${unitNames[units.kind]} once, as the comparison does.`;
  const own = hasIntervals ? ' The intervals are those of the arms’ means, each by itself.' : '';
  const difference =
    hasIntervals && primary.kind === 'estimated'
      ? ' The interval of their difference, which gives the verdict, also uses how the walls were arranged.'
      : '';
  return `Every wall in the comparison, ${quantity} in ${unit}.${own}${difference}${means}`;
}

const unitNames = { site: 'site', block: 'block', strip: 'stretch of wall' } as const;

function numbersOf({ change, before, after }: WallChange) {
  return { change, after, ...(before === undefined ? {} : { before }) };
}

/** By the wall's name: with its number in the table below where names have to be cut. */
function namesInChart(opinion: Opinion): (wall: string) => string {
  const walls = armWalls(opinion).flatMap((arm) => arm.walls.map(({ wall }) => wall));
  const cut = walls.some((wall) => wall.length > longName);
  return (wall) => (cut ? `${walls.indexOf(wall) + 1} ${wall}` : wall);
}

/** One chart where all walls fit a sheet, else one or more for each arm. */
function sheets(groups: readonly ChangesChartGroup[]): readonly (readonly ChangesChartGroup[])[] {
  const total = groups.reduce((count, group) => count + group.walls.length, 0);
  if (total <= mostWallsInChart) return [groups];
  return groups.flatMap((group) => chunks(group.walls, mostWallsInChart).map((walls) => [{ ...group, walls }]));
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

/** Arms in the opinion's order, with their walls. */
function armWalls({ arms, walls }: Opinion): readonly ArmWalls[] {
  return arms.map(({ arm, side }) => ({ arm, side, walls: walls.filter((wall) => wall.arm === arm) }));
}
