import type { BeforeAfter, UnitsOfArm } from '../../findings/cores/units-of-trade.js';
import { countInWords, listInWords } from '../../words/quantity.js';
import { type Block, paragraph, quoted } from '../document.js';
import { levelOf, threeCells, threeColumns } from './profile-blocks.js';

const units = [
  { key: 'volume_pct', caption: 'Moisture in percent by volume' },
  { key: 'water_kg_m3', caption: 'Water in kg/m³ of wall' },
  { key: 'saturation_pct', caption: 'Degree of saturation, % of the moisture content at saturation' },
] as const;

/** What the cores hold in the units of the trade, through the dry density and the saturation that the folder states. */
export function unitsBlocks(arms: readonly UnitsOfArm[] | undefined): readonly Block[] {
  const tables = units.flatMap(({ key, caption }) => {
    const stated = (arms ?? []).flatMap(({ arm, [key]: part }) => (part === undefined ? [] : [{ arm, part }]));
    return stated.length === 0 ? [] : [tableOf(caption, stated)];
  });
  if (tables.length === 0) return [];
  return [
    { kind: 'subheading', text: 'The cores in other units' },
    paragraph(
      'The same means of walls as in the answer, converted wall by wall. The dry density (water at 998.2 kg/m³, from memory) and the moisture content at saturation are those that the folder states. Both count as exact: an error of either in percent is an error of these figures in the same percent. Saturation found in a vacuum, by boiling and by suction differ, and the folder does not say which it is.',
    ),
    ...tables,
    ...aboveBlocks(arms ?? []),
  ];
}

function tableOf(caption: string, arms: readonly { readonly arm: string; readonly part: BeforeAfter }[]): Block {
  const rows = arms.map(({ arm, part }) => ({ arm, cells: [part.before, part.after, part.change] }));
  return {
    kind: 'table',
    caption: `${caption}: means over walls${levelOf(rows[0]?.cells ?? [])}`,
    columns: threeColumns('Change'),
    rows: rows.map(({ arm, cells }) => threeCells(arm, cells)),
  };
}

function aboveBlocks(arms: readonly UnitsOfArm[]): readonly Block[] {
  return arms.flatMap(({ arm, aboveSaturation }) => {
    if (aboveSaturation === undefined || aboveSaturation.cores === 0) return [];
    const { cores, of, walls } = aboveSaturation;
    return [
      paragraph(
        `${cores} of ${countInWords(of, 'core')} of `,
        quoted(arm),
        ` (${walls.length === 1 ? 'wall' : 'walls'} `,
        quoted(listInWords(walls, 4)),
        ') held more than 100 % of saturation, by more than twice the standard uncertainty of their weighing (our convention). No material does: the saturation stated is that of another material or another kind, or the core is no piece of it.',
      ),
    ];
  });
}
