import { type StationChange, wallsByArm } from '../../analysis/index.js';
import { paddedDomain } from '../../charts/frame.js';
import {
  describeHeightProfileChart,
  type HeightPoint,
  type HeightProfileChartData,
  heightProfileChart,
} from '../../charts/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { mean } from '../../statistics/index.js';
import { formatNumber, formatStated } from '../../words/format-number.js';
import { countInWords } from '../../words/quantity.js';
import { type Figure, paragraph, quoted, type Section, type Table } from '../document.js';
import { outcomeDecimals } from '../words/report-numbers.js';

/** Beyond this many different heights a mean at each would be a mean of one or two stations. */
const mostHeights = 12;

interface ArmStations {
  readonly arm: string;
  readonly walls: number;
  readonly stations: readonly PairedStation[];
}

interface PairedStation {
  readonly wall: string;
  readonly height_mm: number;
  readonly before: number;
  readonly after: number;
}

/** Moisture by height, before and after, for each arm; absent where no station of the comparison has a height. */
export function heightsSection(opinion: Opinion): Section | undefined {
  const arms = stationsByArm(opinion);
  if (arms.length === 0) return undefined;
  const decimals = outcomeDecimals(opinion);
  const { quantity, unit } = opinion.protocol.outcome;
  return {
    id: 'heights',
    heading: 'Moisture by height',
    blocks: [
      paragraph(
        `${arms.length === 1 ? 'Only stations' : 'Stations'} with a height and with both a before and an after value. Water that rises from the ground leaves the foot of a wall wetter than its upper part; the picture shows where a change took place, and it is no test of its own.`,
      ),
      heightsFigure(arms, { quantity, unit, decimals }),
      ...meansTable(arms, { quantity, unit, decimals }),
    ],
  };
}

interface Wording {
  readonly quantity: string;
  readonly unit: string;
  readonly decimals: number;
}

function stationsByArm(opinion: Opinion): readonly ArmStations[] {
  return wallsByArm(opinion).flatMap(({ arm, walls }) => {
    const names = new Set(walls.map((wall) => wall.wall));
    const stations = opinion.stations.filter((station) => names.has(station.wall)).flatMap(pairedStation);
    const count = new Set(stations.map((station) => station.wall)).size;
    return stations.length === 0 ? [] : [{ arm, walls: count, stations }];
  });
}

function pairedStation({ wall, height_mm, before, after }: StationChange): readonly PairedStation[] {
  return height_mm === undefined || before === undefined || after === undefined
    ? []
    : [{ wall, height_mm, before, after }];
}

function heightsFigure(arms: readonly ArmStations[], wording: Wording): Figure {
  const all = arms.flatMap((arm) => arm.stations);
  const valueDomain = paddedDomain(all.flatMap((station) => [station.before, station.after]));
  const heightDomain = paddedDomain(
    all.map((station) => station.height_mm),
    0.1,
  );
  const charts = arms.map((arm, style) => {
    const data: HeightProfileChartData = {
      title: arm.arm,
      before: { stations: points(arm.stations, 'before'), means: meansAtHeights(arm.stations, 'before') },
      after: { stations: points(arm.stations, 'after'), means: meansAtHeights(arm.stations, 'after') },
      walls: arm.walls,
      stations: arm.stations.length,
      style,
      valueDomain,
      heightDomain,
      ...wording,
    };
    return { wide: heightProfileChart(data), description: describeHeightProfileChart(data) };
  });
  return {
    kind: 'figure',
    caption: `Height against ${wording.quantity} (${wording.unit}), one picture for each arm, on the same scales.`,
    charts,
  };
}

function points(stations: readonly PairedStation[], when: 'before' | 'after'): readonly HeightPoint[] {
  return stations.map((station) => ({ height_mm: station.height_mm, value: station[when] }));
}

function meansAtHeights(stations: readonly PairedStation[], when: 'before' | 'after'): readonly HeightPoint[] {
  const heights = heightsOf(stations);
  if (heights.length > mostHeights) return [];
  return heights.map((height_mm) => ({
    height_mm,
    value: mean(stations.filter((station) => station.height_mm === height_mm).map((station) => station[when])),
  }));
}

function heightsOf(stations: readonly PairedStation[]): readonly number[] {
  return [...new Set(stations.map((station) => station.height_mm))].sort((a, b) => a - b);
}

function meansTable(arms: readonly ArmStations[], { quantity, unit, decimals }: Wording): readonly Table[] {
  const rows = arms.flatMap((arm) => {
    const before = meansAtHeights(arm.stations, 'before');
    const after = meansAtHeights(arm.stations, 'after');
    return before.map(({ height_mm, value }, index) => [
      [quoted(arm.arm)],
      [formatStated(height_mm)],
      [countInWords(arm.stations.filter((station) => station.height_mm === height_mm).length, 'station')],
      [formatNumber(value, decimals)],
      [formatNumber(after[index]?.value ?? value, decimals)],
    ]);
  });
  if (rows.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: `Means at each height, ${quantity} in ${unit}`,
      columns: [
        { header: 'Arm' },
        { header: 'Height (mm)', look: 'number' },
        { header: 'Measured at', look: 'number' },
        { header: 'Before', look: 'number' },
        { header: 'After', look: 'number' },
      ],
      rows,
    },
  ];
}
