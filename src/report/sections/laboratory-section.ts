import type { LaboratoryFacts, TraysOfArm } from '../../findings/laboratory/laboratory-of-trial.js';
import { lastVisits } from '../../findings/laboratory/rest-of-trays.js';
import type { SpecimenDrying } from '../../findings/laboratory/specimens-drying.js';
import type { Opinion } from '../../opinion/opinion.js';
import { decimalsFor, formatNumber } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted, type Section } from '../document.js';
import { dayText } from '../words/report-numbers.js';

/** Walls that stood in trays: water and level by arm, rest before the start, drying in two stages. No section without trays. */
export function laboratorySection({ laboratory, protocol }: Opinion): Section | undefined {
  if (laboratory === undefined) return undefined;
  const blocks = [
    paragraph(
      'These walls stood in trays in a room. That tests how they take up water from their foot; a building has ground, salts and weather besides.',
    ),
    traysTable(laboratory.arms),
    ...uptakeBlocks(laboratory.arms),
    ...restBlocks(laboratory.rest),
    ...dryingBlocks(laboratory.drying, protocol.confidence),
  ];
  return { id: 'laboratory', heading: 'Walls in trays', blocks };
}

function traysTable(arms: readonly TraysOfArm[]): Block {
  const stated = (value: number | undefined, decimals: number) =>
    value === undefined ? 'not stated' : formatNumber(value, decimals);
  return {
    kind: 'table',
    caption: 'Trays by arm: means over the visits of both windows',
    columns: [
      { header: 'Arm' },
      { header: 'Walls', look: 'number' },
      { header: 'Water' },
      { header: 'Level (mm)', look: 'number' },
      { header: 'Refill a visit before (ml)', look: 'number' },
      { header: 'after (ml)', look: 'number' },
      { header: 'Mass before (kg)', look: 'number' },
      { header: 'after (kg)', look: 'number' },
    ],
    rows: arms.map(({ arm, walls, waters, level_mm, before, after }): readonly Line[] => [
      [quoted(arm)],
      [formatNumber(walls, 0)],
      [waters.length === 0 ? 'not stated' : waters.join(', ')],
      [
        level_mm === undefined
          ? 'not stated'
          : [...new Set([level_mm.least, level_mm.most].map((level) => formatNumber(level, 0)))].join(' to '),
      ],
      [stated(before.refill_ml, 0)],
      [stated(after.refill_ml, 0)],
      [stated(before.mass_kg, 2)],
      [stated(after.mass_kg, 2)],
    ]),
  };
}

/** In the unit in which walls and climates are compared. */
function uptakeBlocks(arms: readonly TraysOfArm[]): readonly Block[] {
  const text = (rate: number | undefined) => (rate === undefined ? 'not known' : formatNumber(rate, decimalsFor(rate)));
  const told = arms.filter(({ before, after }) => (before.uptake_kg_m2_d ?? after.uptake_kg_m2_d) !== undefined);
  if (told.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: 'Water taken up by a square metre of one face, kg/m² a day, means over walls',
      columns: [{ header: 'Arm' }, { header: 'Before', look: 'number' }, { header: 'After', look: 'number' }],
      rows: told.map(({ arm, before, after }): readonly Line[] => [
        [quoted(arm)],
        [text(before.uptake_kg_m2_d)],
        [text(after.uptake_kg_m2_d)],
      ]),
    },
    paragraph(
      'The stated area is that of one face; with both faces open, half of it left through each. 1 kg/m² is 1 mm of water (998.2 kg/m³, from memory). In a wall at rest, what it takes up is what its faces evaporate.',
    ),
  ];
}

function restBlocks(rest: LaboratoryFacts['rest']): readonly Block[] {
  if (rest === undefined) return [];
  if (rest.kind === 'not-told')
    return [
      paragraph(`Fewer than ${lastVisits} visits before the start: nothing shows whether the walls had come to rest.`),
    ];
  const percent = (share: number) => formatNumber(100 * share, 1);
  return [
    paragraph(
      `Over the last ${lastVisits} visits before the start the outcome of ${countInWords(rest.walls, 'wall')} moved by ${percent(rest.trendPer30Days)} % of its mean in 30 days (${percent(rest.interval.lower)} to ${percent(rest.interval.upper)}, ${levelInWords(rest.interval.level)} interval with walls as the units).`,
    ),
  ];
}

function dryingBlocks(specimens: readonly SpecimenDrying[], level: number): readonly Block[] {
  if (specimens.length === 0) return [];
  const limits = ({ lower, upper }: { readonly lower: number; readonly upper: number }, decimals: number) =>
    `(${formatNumber(lower, decimals)} to ${formatNumber(upper, decimals)})`;
  return [
    { kind: 'subheading', text: 'Drying once the tray was empty' },
    paragraph(
      `A wet specimen dries at a constant rate that the air sets, then by the root of time as its material lets it. Both lines and the break are fitted at once (definitions of EN 16322, from memory). Brackets: ${levelInWords(level)} intervals.`,
    ),
    {
      kind: 'table',
      caption: 'Loss of whole specimens in two stages',
      columns: [
        { header: 'Specimen' },
        { header: 'Arm' },
        { header: 'Emptied on' },
        { header: 'Weighings', look: 'number' },
        { header: 'First stage (g a day)', look: 'number' },
        { header: 'Break (days)', look: 'number' },
        { header: 'Second stage (g per root of a day)', look: 'number' },
      ],
      rows: specimens.map(({ wall, arm, emptiedOn, weighings, stages }): readonly Line[] => [
        [quoted(wall)],
        [quoted(arm)],
        [dayText(emptiedOn)],
        [formatNumber(weighings, 0)],
        ...(stages === undefined
          ? [['one stage only'], ['none'], ['none']]
          : [
              [`${formatNumber(stages.first_g_d, 0)} ${limits(stages.firstInterval, 0)}`],
              [`${formatNumber(stages.change_d, 1)} ${limits(stages.changeInterval, 1)}`],
              [formatNumber(stages.second_g_d05, 0)],
            ]),
      ]),
    },
  ];
}
