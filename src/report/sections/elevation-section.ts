import { wallsByArm } from '../../analysis/index.js';
import { describeElevationChart, type ElevationChartData, elevationChart } from '../../charts/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { countInWords } from '../../words/quantity.js';
import { paragraph, type Section } from '../document.js';
import { outcomeDecimals } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';

/** Walls seen from the front, before and after; absent where the trial does not say where on its walls it measured. */
export function elevationSection(opinion: Opinion): Section | undefined {
  const { elevation, protocol } = opinion;
  if (elevation === undefined) return undefined;
  const { quantity, unit } = protocol.outcome;
  const arms = wallsByArm(opinion).map(({ arm }) => arm);
  const data: ElevationChartData = {
    title: 'The walls as they stand',
    walls: elevation.walls
      .map((wall) => ({ ...wall, style: Math.max(0, arms.indexOf(wall.arm)) }))
      .sort((one, other) => one.style - other.style),
    ...{ quantity, unit, decimals: outcomeDecimals(opinion) },
  };
  const shown =
    elevation.walls.length === elevation.of
      ? ''
      : ` Of ${countInWords(elevation.of, 'wall')} with such places the picture shows three of each arm: the one that did best, the middle one and the one that did worst.`;
  return {
    id: 'elevation',
    heading: 'The walls as they stand',
    blocks: [
      paragraph(
        `Where on a wall it was measured, and how much was found there before and after. A place measured at several depths is shown by their mean.${shown}`,
      ),
      {
        kind: 'figure',
        caption: `Walls seen from the front, ${quantity} in ${unit}; beside each arm’s name the change of the wall. All walls are drawn at one scale.`,
        charts: [
          {
            wide: elevationChart(data),
            narrow: elevationChart(data, { width: narrowWidth }),
            description: describeElevationChart(data),
          },
        ],
      },
    ],
  };
}
