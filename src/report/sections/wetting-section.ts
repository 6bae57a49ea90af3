import { describeWettingFrontChart, type WettingFrontChartData, wettingFrontChart } from '../../charts/index.js';
import type { FrontAtRest } from '../../drying/index.js';
import type { FrontOfWall, WettingOfWall } from '../../findings/drying/wetting-part.js';
import { reasonInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import type { Interval } from '../../statistics/index.js';
import { formatNumber, formatPValue } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted, type Section, type Table } from '../document.js';
import { dayText } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';

/** How the water came up before the treatment: days of arrival, the front, sorptivity. No section without sensors. */
export function wettingSection({ wetting, protocol }: Opinion): Section | undefined {
  if (wetting === undefined) return undefined;
  const blocks =
    wetting.kind === 'shown'
      ? [paragraph(opening), ...ofWalls(wetting.walls, protocol.confidence)]
      : [paragraph(`No rise of water is shown: ${reasonInWords(wetting.reason)}.`)];
  return { id: 'wetting', heading: 'How water came up before the treatment', blocks };
}

const opening =
  'Sensors in the wall say when the water reached them, from the lowest up. What capillarity alone drives rises with the root of time: it takes four times as long to come twice as high. A front that falls behind that line has met evaporation, joints or another material.';

/** Walls told one by one; further ones get a line each. */
const mostTold = 4;

function ofWalls(walls: readonly WettingOfWall[], level: number): readonly Block[] {
  const told = walls.slice(0, mostTold).flatMap((wall) => ofWall(wall, level));
  const further = walls.slice(mostTold);
  if (further.length === 0) return told;
  const table: Table = {
    kind: 'table',
    caption: 'The front in the further walls, in mm per root of a minute',
    columns: [
      { header: 'Wall' },
      { header: 'Sensors reached', look: 'number' },
      { header: 'Speed of the front', look: 'number' },
      { header: `${levelInWords(level)} interval`, look: 'number' },
    ],
    rows: further.map((wall): readonly Line[] => [
      [quoted(wall.wall)],
      [`${arrivedOf(wall).length} of ${wall.sensors.length}`],
      [wall.front === undefined ? 'none' : formatNumber(wall.front.speed, 2)],
      [wall.front === undefined ? 'none' : limits(wall.front.interval, 2)],
    ]),
  };
  return [...told, table];
}

function ofWall(wall: WettingOfWall, level: number): readonly Block[] {
  return [
    { kind: 'subheading', text: `Wall ${wall.wall}` },
    ...frontBlocks(wall, level),
    arrivalsTable(wall, level),
    ...notArrived(wall),
  ];
}

function frontBlocks(wall: WettingOfWall, level: number): readonly Block[] {
  const { front, firstDay } = wall;
  if (front === undefined)
    return [
      paragraph(
        'The water came to fewer than three heights, or not plainly later the higher they are: no front is drawn through them.',
      ),
    ];
  const data: WettingFrontChartData = {
    title: `The front in wall ${wall.wall}`,
    arrivals: arrivedOf(wall),
    start_d: front.start_d,
    speed: front.speed,
    level,
  };
  return [
    paragraph(
      `Through ${countInWords(front.arrivals, 'arrival')}: the water set out ${within(front.start_d, front.startInterval, 1)} days after the first reading began (${dayText(firstDay)}), and rose by ${within(front.speed, front.interval, 2)} mm per root of a minute. Brackets: ${levelInWords(level)} intervals.`,
    ),
    sorptivityTable(front, level),
    paragraph([...rootTimeText(front), moistureText(front)].join(' ')),
    {
      kind: 'figure',
      caption: 'Sensors that the water had not reached plainly are not in it.',
      charts: [
        {
          wide: wettingFrontChart(data),
          narrow: wettingFrontChart(data, { width: narrowWidth }),
          description: describeWettingFrontChart(data),
        },
      ],
    },
  ];
}

/** Beside one another: what the root of time alone gives, and what it gives with evaporation. */
function sorptivityTable(front: FrontOfWall, level: number): Table {
  const { evaporating } = front;
  const rows = [
    { name: 'root of time', of: front, rest: 'none' },
    ...(evaporating === undefined
      ? []
      : [{ name: 'sharp front with evaporation', of: evaporating, rest: restText(evaporating.rest) }]),
  ];
  return {
    kind: 'table',
    caption: `Speed of the front at the foot and sorptivity, mm per root of a minute, with ${levelInWords(level)} intervals`,
    columns: [
      { header: 'Model' },
      { header: 'Speed', look: 'number' },
      { header: 'Sorptivity', look: 'number' },
      { header: 'Height at rest (mm)', look: 'number' },
    ],
    rows: rows.map(({ name, of, rest }): readonly Line[] => [
      [name],
      [within(of.speed, of.interval, 2)],
      [within(of.sorptivity.sorptivity, of.sorptivity.interval, 3)],
      [rest],
    ]),
  };
}

function restText(rest: FrontAtRest | undefined): string {
  if (rest === undefined) return 'none';
  const highest = rest.highest_mm === undefined ? 'no limit' : formatNumber(rest.highest_mm, 0);
  return `${formatNumber(rest.height_mm, 0)} (${formatNumber(rest.lowest_mm, 0)} to ${highest})`;
}

function rootTimeText({ rootTime, evaporating }: FrontOfWall): readonly string[] {
  if (rootTime === undefined)
    return ['With arrivals at fewer than four heights nothing tests whether the front kept to the root of time.'];
  const test = `Student’s t of a quadratic term: ${formatPValue(rootTime.pValue)}`;
  if (!rootTime.isBent) return [`The arrivals do not depart from the root of time beyond their scatter (${test}).`];
  if (rootTime.curvature < 0)
    return [
      `The front ran ahead of the root of time (${test}): a material that changes with height, or water from elsewhere.`,
    ];
  const evaporation = evaporating?.evaporation_mm_d;
  return [
    `The front fell behind the root of time (${test}): sorptivity by the root of time is too low, and the model with evaporation is the better one.`,
    ...(evaporation === undefined
      ? []
      : [
          `It slows down as a wall does that evaporates ${formatNumber(evaporation, 2)} mm a day, both faces together; gravity and joints would slow it too.`,
        ]),
  ];
}

function moistureText({ moistureBehindFront: moisture }: FrontOfWall): string {
  const content = `${formatNumber(100 * moisture.value, moisture.from === 'cores' ? 1 : 0)} % of the volume`;
  if (moisture.from === 'assumed')
    return `Sorptivity is that speed times the water behind the front, taken as ${content}, as in brick saturated by capillarity (common practice, no source). Another content changes it in proportion.`;
  return `Sorptivity is that speed times the water behind the front, ${content} by ${countInWords(moisture.cores, 'core')} drilled behind it; its interval holds the scatter of these cores.`;
}

function within(value: number, interval: Interval, decimals: number): string {
  return `${formatNumber(value, decimals)} (${limits(interval, decimals)})`;
}

function limits({ lower, upper }: Pick<Interval, 'lower' | 'upper'>, decimals: number): string {
  return `${formatNumber(lower, decimals)} to ${formatNumber(upper, decimals)}`;
}

function arrivedOf({ sensors }: WettingOfWall) {
  return sensors.flatMap((one) => (one.kind === 'arrived' ? [one] : []));
}

function arrivalsTable(wall: WettingOfWall, level: number): Table {
  return {
    kind: 'table',
    caption: `When the water came, in days since the beginning of ${dayText(wall.firstDay)}`,
    columns: [
      { header: 'Station' },
      { header: 'Height (mm)', look: 'number' },
      { header: 'Day', look: 'number' },
      { header: `${levelInWords(level)} interval`, look: 'number' },
    ],
    rows: arrivedOf(wall).map(({ station, height_mm, time_d, lower_d, upper_d }): readonly Line[] => [
      [quoted(station)],
      [formatNumber(height_mm, 0)],
      [formatNumber(time_d, 1)],
      [limits({ lower: lower_d, upper: upper_d }, 1)],
    ]),
  };
}

function notArrived({ sensors }: WettingOfWall): readonly Block[] {
  const items = sensors.flatMap((one): Line[] =>
    one.kind === 'arrived'
      ? []
      : [
          [
            'Without an arrival: ',
            quoted(one.station),
            ` at ${formatNumber(one.height_mm, 0)} mm, for ${reasonInWords(one.reason)}.`,
          ],
        ],
  );
  return items.length === 0 ? [] : [{ kind: 'list', items }];
}
