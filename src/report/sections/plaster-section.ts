import type { PlasterOfTrial } from '../../findings/plaster/plaster-of-trial.js';
import type { Opinion } from '../../opinion/opinion.js';
import { formatNumber, formatSigned } from '../../words/format-number.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted, type Section } from '../document.js';
import { dayText } from '../words/report-numbers.js';

/** Plaster stripped and renewed, by wall. No section where the diary notes none. */
export function plasterSection({ plaster }: Opinion): Section | undefined {
  if (plaster === undefined) return undefined;
  const { treated, untreated } = plaster.bySide;
  return {
    id: 'plaster',
    heading: 'Plaster stripped and renewed',
    blocks: [
      paragraph(
        `While the trial ran plaster was stripped on ${treated.stripped} of ${countInWords(treated.walls, 'treated wall')} and ${untreated.stripped} of ${countInWords(untreated.walls, 'untreated wall')}, and renewed on ${treated.renewed} and ${untreated.renewed}. A wall dries faster without its plaster; new plaster brings water, and later hides salts. Only what was done alike to both arms drops out of the difference.`,
      ),
      daysTable(plaster),
      ...readingsBlocks(plaster),
    ],
  };
}

function daysTable({ walls }: PlasterOfTrial): Block {
  return {
    kind: 'table',
    caption: 'Days of work on the plaster',
    columns: [{ header: 'Wall' }, { header: 'Side' }, { header: 'Stripped' }, { header: 'Renewed' }],
    rows: walls.map(({ wall, side, stripped, renewed }): readonly Line[] => [
      [quoted(wall)],
      [side],
      [days(stripped)],
      [days(renewed)],
    ]),
  };
}

function days(list: readonly string[]): string {
  return list.length === 0 ? 'no' : list.map(dayText).join(', ');
}

function readingsBlocks({ readings }: PlasterOfTrial): readonly Block[] {
  if (readings.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: 'Walls with new plaster: read before any work on it, and on the new plaster; means over walls',
      columns: [
        { header: 'Instrument' },
        { header: 'Side' },
        { header: 'Walls', look: 'number' },
        { header: 'Before', look: 'number' },
        { header: 'On new plaster', look: 'number' },
        { header: 'Change', look: 'number' },
      ],
      rows: readings.map(({ instrument, side, walls, before, onNew }): readonly Line[] => [
        [quoted(instrument)],
        [side],
        [formatNumber(walls, 0)],
        [formatNumber(before, 2)],
        [formatNumber(onNew, 2)],
        [formatSigned(onNew - before, 2)],
      ]),
    },
    paragraph(
      'These changes hold season, treatment and plaster together. A meter held against new plaster reads the plaster; a core drilled through it holds some of it unless that part is cut off.',
    ),
  ];
}
