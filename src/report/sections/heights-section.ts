import { paddedDomain } from '../../charts/frame.js';
import {
  describeHeightProfileChart,
  type HeightPoint,
  type HeightProfileChartData,
  heightProfileChart,
} from '../../charts/index.js';
import type { HeightsOfArm, StationAtHeight } from '../../findings/heights/heights-of-arms.js';
import type { Opinion } from '../../opinion/opinion.js';
import { formatNumber, formatStated } from '../../words/format-number.js';
import { countInWords } from '../../words/quantity.js';
import { type Figure, paragraph, quoted, type Section, type Table } from '../document.js';
import { outcomeDecimals } from '../words/report-numbers.js';

/** Moisture by height, before and after, for each arm; absent where no station of the comparison has a height. */
export function heightsSection(opinion: Opinion): Section | undefined {
  const { heights: arms } = opinion;
  if (arms.length === 0) return undefined;
  const decimals = outcomeDecimals(opinion);
  const { quantity, unit } = opinion.protocol.outcome;
  return {
    id: 'heights',
    heading: 'Moisture by height',
    blocks: [
      paragraph(
        `${arms.length === 1 ? 'Only stations' : 'Stations'} with a height and with both a before and an after value. Water that rises from the ground leaves the foot of a wall wetter than its upper part. The picture shows where a change took place; it is not a test.`,
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

function heightsFigure(arms: readonly HeightsOfArm[], wording: Wording): Figure {
  const all = arms.flatMap((arm) => arm.stations);
  const valueDomain = paddedDomain(all.flatMap((station) => [station.before, station.after]));
  const heightDomain = paddedDomain(
    all.map((station) => station.height_mm),
    0.1,
  );
  const charts = arms.map((arm, style) => {
    const data: HeightProfileChartData = {
      title: arm.arm,
      before: { stations: points(arm.stations, 'before'), means: meansAtHeights(arm, 'before') },
      after: { stations: points(arm.stations, 'after'), means: meansAtHeights(arm, 'after') },
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

function points(stations: readonly StationAtHeight[], when: 'before' | 'after'): readonly HeightPoint[] {
  return stations.map((station) => ({ height_mm: station.height_mm, value: station[when] }));
}

function meansAtHeights({ means }: HeightsOfArm, when: 'before' | 'after'): readonly HeightPoint[] {
  return means.map((own) => ({ height_mm: own.height_mm, value: own[when] }));
}

function meansTable(arms: readonly HeightsOfArm[], { quantity, unit, decimals }: Wording): readonly Table[] {
  const rows = arms.flatMap(({ arm, means }) =>
    means.map(({ height_mm, stations, before, after }) => [
      [quoted(arm)],
      [formatStated(height_mm)],
      [countInWords(stations, 'station')],
      [formatNumber(before, decimals)],
      [formatNumber(after, decimals)],
    ]),
  );
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
