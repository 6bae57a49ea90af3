import { describeWallMapChart, type WallMapChartData, wallMapChart } from '../../charts/index.js';
import type { ArmName, FrontsOfArm, LeftOutHere, MapsOfArm, WaterOfArm } from '../../findings/cores/cores-part.js';
import type { MeanOfWalls } from '../../findings/cores/mean-of-walls.js';
import { reasonInWords } from '../../labels/index.js';
import type { WallMapCell } from '../../moisture/index.js';
import { present } from '../../plain/present.js';
import { decimalsFor, formatNumber, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Column, type Line, paragraph, quoted } from '../document.js';

/** Water in a square metre of wall, by arm and window. */
export function waterBlocks(water: CoresWater | undefined): readonly Block[] {
  const rows = (water ?? []).flatMap(({ arm, means }) =>
    means === undefined ? [] : [{ arm, cells: [means.before, means.after, means.change] }],
  );
  const [first] = rows;
  if (water === undefined || first === undefined) return [];
  return [
    { kind: 'subheading', text: 'Water in the wall' },
    paragraph(
      'Moisture summed over depth and height, weighted by the stated thickness and dry density. It is kilograms of water behind a square metre of wall face, between the lowest and the highest height cored. Nothing is claimed above or below. Same places before and after.',
      ofWeighingInWords(water),
    ),
    ...beyondBlocks(water),
    {
      kind: 'table',
      caption: `Water in a square metre of wall face, kg/m²: means over walls${levelOf(first.cells)}`,
      columns: threeColumns('Change'),
      rows: rows.map(({ arm, cells }) => threeCells(arm, cells)),
    },
    ...leftOutBlocks(
      'Excluded here',
      water.flatMap(({ arm, leftOut }) => leftOut.map((each) => ({ arm, ...each }))),
    ),
  ];
}

function ofWeighingInWords(water: CoresWater): string {
  const largest = Math.max(...water.flatMap(({ ofWeighing }) => ofWeighing ?? []));
  return ` The weighings leave one wall’s water uncertain by at most ${formatNumber(largest, Math.max(2, decimalsFor(largest)))} kg/m² (standard uncertainty). The density counts as exact; an error of it changes the water by the same percentage. What lies between the places cored is not in these figures.`;
}

/** What no core reached is not measured: the deepest value was put there. */
function beyondBlocks(water: CoresWater): readonly Block[] {
  const parts = water.flatMap(({ arm, beyond }) =>
    beyond === undefined || beyond.share === 0 ? [] : [{ arm, ...beyond }],
  );
  if (parts.length === 0) return [];
  const words = parts.flatMap(({ arm, share, water_kg_m2 }, at) => [
    at === 0 ? '' : '; ',
    quoted(arm),
    `, ${formatNumber(100 * share, 0)} % of the thickness, ${formatNumber(water_kg_m2, 1)} kg/m² of the before value`,
  ]);
  return [
    paragraph(
      'Beyond the deepest core nothing was measured; the value of the deepest core stands in to the far face: ',
      ...words,
      '. Cores from both faces, or through the wall, would leave nothing out. A depth counts from one face through to the other.',
    ),
  ];
}

type CoresWater = readonly (WaterOfArm & ArmName)[];
type CoresFronts = readonly (FrontsOfArm & ArmName)[];

/** How high the damp front stood, by arm and window. */
export function frontBlocks(fronts: CoresFronts | undefined): readonly Block[] {
  if (fronts === undefined || fronts.length === 0) return [];
  const cells = fronts.flatMap(({ before, after, change }) => [before, after, change]);
  const missing = fronts.flatMap(({ arm, notFound }) =>
    (['before', 'after'] as const).flatMap((window) =>
      notFound[window].map(({ reason, walls }) => ({ arm: `${arm}, ${window}`, reason, walls })),
    ),
  );
  return [
    { kind: 'subheading', text: 'How high the damp front stood' },
    paragraph(
      'Wall by wall, a smooth step from a damp foot to a drier top; its height is where moisture is half way between the two. It describes a profile and says nothing of what made it. A wall cored at fewer than five heights (our convention) is excluded, and one without a clear step has no height here. Before and after may therefore stand for different walls; the change is of walls that have both.',
    ),
    {
      kind: 'table',
      caption: `Height of the damp front, mm: means over walls${levelOf(cells)}`,
      columns: withMethodColumn(threeColumns('Change, walls with both')),
      rows: fronts.flatMap(({ arm, before, after, change, byOrder }) => [
        withMethod('smooth step', threeCells(arm, [before, after, change])),
        withMethod('no curve', threeCells(arm, [byOrder.before, byOrder.after, byOrder.change])),
      ]),
    },
    paragraph(
      'Without a curve, moisture is only taken not to rise with height, and the height is where it passes half way between wettest and driest. Where the two disagree by more than the heights are apart, the smooth step is not reliable.',
    ),
    ...openBlocks(fronts),
    ...leftOutBlocks('No smooth step', missing),
  ];
}

/** The mean takes a wall's front as it is, however little its own readings limit it; this says of how many that is so. */
function openBlocks(fronts: CoresFronts): readonly Block[] {
  const parts = fronts.flatMap(({ arm, open }) =>
    (['before', 'after'] as const).flatMap((window) =>
      open[window] === 0 ? [] : [{ arm, window, walls: open[window] }],
    ),
  );
  if (parts.length === 0) return [];
  const words = parts.flatMap(({ arm, window, walls }, at) => [
    at === 0 ? ' ' : '; ',
    quoted(arm),
    `, ${window}: ${countInWords(walls, 'wall')}`,
  ]);
  return [
    paragraph(
      'Fronts that a wall’s own readings do not limit inside the heights cored, to one side or to both:',
      ...words,
      '.',
    ),
  ];
}

function withMethodColumn([arm, ...others]: readonly Column[]): readonly Column[] {
  return [...(arm === undefined ? [] : [arm]), { header: 'Taken as' }, ...others];
}

function withMethod(method: string, [arm, ...others]: readonly Line[]): readonly Line[] {
  return [...(arm === undefined ? [] : [arm]), [method], ...others];
}

export function threeColumns(change: string): readonly Column[] {
  return [
    { header: 'Arm' },
    { header: 'Before', look: 'number' },
    { header: 'Walls', look: 'number' },
    { header: 'After', look: 'number' },
    { header: 'Walls', look: 'number' },
    { header: change, look: 'number' },
    { header: 'Walls', look: 'number' },
  ];
}

/** Before, after, change; a change carries its sign. */
export function threeCells(arm: string, means: readonly (MeanOfWalls | undefined)[]): readonly Line[] {
  const halves = means.flatMap((each) =>
    each?.interval === undefined ? [] : [(each.interval.upper - each.interval.lower) / 2],
  );
  const decimals = decimalsFor(Math.min(...halves));
  const cells = means.flatMap((each, at): Line[] => {
    if (each === undefined) return [['none'], ['0']];
    const text = (value: number) => (at === 2 ? formatSigned(value, decimals) : formatNumber(value, decimals));
    const interval =
      each.interval === undefined ? '' : ` (${text(each.interval.lower)} to ${text(each.interval.upper)})`;
    return [[`${text(each.mean)}${interval}`], [formatNumber(each.walls, 0)]];
  });
  return [[quoted(arm)], ...cells];
}

export function levelOf(means: readonly (MeanOfWalls | undefined)[]): string {
  const level = means.find((each) => each?.interval !== undefined)?.interval?.level;
  return level === undefined ? '' : ` with ${levelInWords(level)} intervals, walls as the units`;
}

function leftOutBlocks(what: string, each: readonly (LeftOutHere & { readonly arm: string })[]): readonly Block[] {
  if (each.length === 0) return [];
  const parts = each.flatMap(({ arm, reason, walls }, at) => [
    at === 0 ? ' ' : '; ',
    quoted(arm),
    `: ${countInWords(walls, 'wall')} (${reasonInWords(reason)})`,
  ]);
  return [paragraph(`${what}.`, ...parts, '.')];
}

/** A pair of maps by arm: before, and the change. All arms on one scale of colours each. */
export function mapBlocks(maps: readonly MapsOfArm[] | undefined): readonly Block[] {
  if (maps === undefined || maps.length === 0) return [];
  const amounts = domainOf(maps.flatMap(({ before }) => before));
  const changes = domainOf(maps.flatMap(({ change }) => change));
  return [
    { kind: 'subheading', text: 'Where in the wall' },
    ...maps.map(({ arm, walls, before, change }): Block => {
      const common = {
        across: 'depth',
        meansOver: countInWords(walls, 'wall'),
        quantity: 'moisture content',
        unit: '% by mass',
        decimals: 1,
      } as const;
      const charts: readonly WallMapChartData[] = [
        { ...common, title: `${arm}: before`, shows: 'amount', cells: before.map(cellOf), valueDomain: amounts },
        { ...common, title: `${arm}: change`, shows: 'change', cells: change.map(cellOf), valueDomain: changes },
      ];
      return {
        kind: 'figure',
        caption: 'Height above floor against depth from the face; n is walls. Colours mean the same in every arm.',
        charts: charts.map((data) => ({ wide: wallMapChart(data), description: describeWallMapChart(data) })),
      };
    }),
  ];
}

function cellOf({ height_mm, depth_mm, value, n }: WallMapCell) {
  return { height_mm, ...present({ across_mm: depth_mm }), value, n };
}

function domainOf(cells: readonly WallMapCell[]) {
  const values = cells.map(({ value }) => value);
  return { from: Math.min(...values), to: Math.max(...values) };
}
