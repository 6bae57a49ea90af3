import type { LeftOutReadings } from '../../analysis/index.js';
import { readingLeftOutInWords, wallLeftOutInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { describeMended, describeNotUsed } from '../../trial/index.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, code, type Line, paragraph, quoted, type Section } from '../document.js';
import { compactRows } from '../writers/compact-rows.js';

/** Every wall and every reading that did not enter the comparison, and why. Rows are counted as a spreadsheet counts them. */
export function leftOutSection(opinion: Opinion): Section {
  return {
    id: 'left-out',
    heading: 'What was excluded',
    blocks: [...walls(opinion), ...readings(opinion), ...notUsed(opinion), ...mended(opinion)],
  };
}

function walls({ leftOutWalls }: Opinion): Block[] {
  if (leftOutWalls.length === 0) return [paragraph('No wall was excluded from the comparison.')];
  return [
    {
      kind: 'table',
      caption: 'Walls excluded from the comparison',
      columns: [{ header: 'Wall' }, { header: 'Why', look: 'prose' }],
      rows: leftOutWalls.map(({ wall, reason }) => [[quoted(wall)], [wallLeftOutInWords(reason)]]),
    },
  ];
}

function readings({ leftOutReadings, measurement }: Opinion): Block[] {
  const count = leftOutReadings.reduce((sum, each) => sum + each.count, 0);
  const used = `${countInWords(measurement.used, 'reading')} of the outcome’s instrument went into the comparison`;
  if (count === 0) return [paragraph(`${used}; none was excluded.`)];
  return [
    paragraph(
      `${used}; ${countInWords(count, 'reading')} did not. Rows are counted as a spreadsheet shows them: the header is row 1.`,
    ),
    {
      kind: 'table',
      caption: 'Readings excluded from the comparison',
      columns: [
        { header: 'Why', look: 'prose' },
        { header: 'Readings', look: 'number' },
        { header: 'Where', look: 'prose' },
      ],
      rows: leftOutReadings.map((each) => [[readingLeftOutInWords(each.reason)], [`${each.count}`], where(each)]),
    },
  ];
}

/** What was handed in and took no part: whoever reads the opinion may miss it. */
function notUsed({ ledger }: Opinion): Block[] {
  if (ledger === undefined || ledger.notUsed.length === 0) return [];
  return [
    paragraph('What was not used: handed in with the trial or named in its plan, and no part of what is said here.'),
    { kind: 'list', items: ledger.notUsed.map((one) => [code(describeNotUsed(one))]) },
  ];
}

function mended({ ledger }: Opinion): Block[] {
  if (ledger === undefined || ledger.mended.length === 0) return [];
  return [
    paragraph('What was read as something else than it literally says, because it can mean nothing else:'),
    { kind: 'list', items: ledger.mended.map((one) => [code(describeMended(one))]) },
  ];
}

function where({ origins }: LeftOutReadings): Line {
  const files = [...new Set(origins.map((origin) => origin.file))];
  return files.flatMap((file, index) => {
    const rows = origins.filter((origin) => origin.file === file).map((origin) => origin.row);
    return [index === 0 ? '' : '; ', code(file), ` ${rows.length === 1 ? 'row' : 'rows'} ${compactRows(rows)}`];
  });
}
