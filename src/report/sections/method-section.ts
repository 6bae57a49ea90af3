import type { PrimaryMethod } from '../../analysis/index.js';
import { evidenceRules } from '../../opinion/evidence.js';
import type { Opinion } from '../../opinion/opinion.js';
import type { SourceFile } from '../../trial/index.js';
import { formatNumber } from '../../words/format-number.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, code, type Line, paragraph, quoted, type Section, type Table } from '../document.js';
import { measurementInWords } from '../words/measurement-in-words.js';
import { outcomeDecimals } from '../words/report-numbers.js';

const differences: Readonly<Record<PrimaryMethod, string>> = {
  welch:
    'The difference is the mean change of the treated walls less the mean change of the untreated walls. Its interval is Welch’s: Student’s t with a variance for each side and the Welch–Satterthwaite degrees of freedom.',
  'paired-blocks':
    'Each block holds one treated and one untreated wall. The difference is the mean of the blocks’ own differences (treated wall’s change less its partner’s). Its interval is Student’s t over the blocks, with one degree of freedom less than there are blocks.',
  'block-model':
    'The difference is the coefficient of the arm in a least-squares fit of change on arm and block. Its interval is Student’s t with the residual degrees of freedom of that fit.',
  'paired-series':
    'One side of the comparison has a single wall. At each common visit the treated wall, or mean of walls, less the untreated gives a series. The difference is its level in the after window less its level in the before window. Its interval is Student’s t averaged over the first-order autocorrelation of the visits. Each value of it counts by its restricted likelihood times the reference prior 1/√(1 − r²): the autocorrelation is not taken as known.',
};

/** From the readings to the difference, in words with the names of the formulas, and how the files were read. */
export function methodSection(opinion: Opinion): Section {
  return {
    id: 'method',
    heading: 'How it was computed',
    blocks: [
      ...steps(opinion),
      ...allocation(opinion),
      ...moisture(opinion),
      paragraph(
        'How the verdict follows: the primary interval is held against zero and the margin, on the better side. How the evidence word follows: from the number and seriousness of the threats that count, regardless of the result, by the first row of this table that holds. Where a single treated and a single untreated wall are compared it is never better than shaky. The same holds where one reader who was not kept blind placed a meter by hand.',
      ),
      evidenceTable(),
      filesTable(opinion.files),
    ],
  };
}

function steps(opinion: Opinion): Block[] {
  const { primary, protocol } = opinion;
  return [
    {
      kind: 'list',
      items: [
        [
          `A station’s before value is the mean of its readings by the outcome’s instrument (`,
          quoted(protocol.outcome.instrument),
          ') inside the before window; its after value likewise inside the after window. What was read on or after the day of its wall’s own treatment is no before reading, what was read earlier no after reading.',
        ],
        [changeOfWall(opinion)],
        [
          primary.kind === 'estimated'
            ? differences[primary.method]
            : 'The difference would be the treated walls’ change less the untreated walls’; here it has no interval, for the reason given above.',
        ],
        [whatCounts(opinion)],
      ],
    },
  ];
}

function changeOfWall({ walls }: Opinion): string {
  if (walls.length > 0 && walls.every(({ before }) => before === undefined))
    return 'No wall was read before the treatment, and the walls were randomised: after values are compared, and stand wherever changes are spoken of. A wall’s after value is the mean over its stations. A wall without one is excluded, and named.';
  const renamed = walls.filter(({ places }) => places === 'renamed').length;
  const anew =
    renamed === 0
      ? ''
      : ` ${countInWords(renamed, 'wall has', 'walls have')} no such station, as when places are named anew: what counts is the mean of the after stations less the mean of the before stations.`;
  const without = renamed === 0 ? 'without such a station' : 'without readings in both windows';
  return `A wall’s change is the mean over its stations that have both, of after minus before.${anew} A wall ${without} is excluded, and named.`;
}

function whatCounts({ units: { kind, isStated } }: Opinion): string {
  if (kind === 'wall')
    return 'Walls are the units throughout: what was treated or not treated as a whole counts once. More cores, stations or visits make a wall’s value more precise; they do not make more walls.';
  const what = { site: 'Sites', block: 'Blocks', strip: 'Stretches of wall' }[kind];
  const why = isStated
    ? 'as the plan states'
    : `which the plan does not state: ${
        {
          site: 'every site with several walls has them all on one side of the comparison',
          block: 'every block has all its walls on one side of the comparison',
          strip: 'walls of one side are linked as neighbours, and strips of one wall are not walls',
        }[kind]
      }`;
  return `${what} are the units throughout, ${why}. The value of each is the mean over its walls. More walls, cores, stations or visits make it more precise; they do not make more units.`;
}

function allocation({ protocol }: Opinion): Block[] {
  const { method, by, seed } = protocol.allocation;
  const methods = {
    randomised: 'randomised',
    'randomised-in-blocks': 'randomised inside blocks of like walls',
    'matched-pairs': 'randomised inside matched pairs',
    chosen: 'chosen, not randomised',
  } as const;
  const { readers, occupants, analyst } = protocol.blinding;
  const kept = [...(readers ? ['readers'] : []), ...(occupants ? ['occupants'] : []), ...(analyst ? ['analyst'] : [])];
  const drawn: Line = [
    `Which walls were treated was ${methods[method]}`,
    ...(by === '' ? ['; by whom is not stated'] : [', by ', quoted(by)]),
    seed === undefined ? '.' : ` (seed ${seed}).`,
  ];
  const blinding =
    kept.length === 0
      ? ' The plan kept nobody from knowing which walls were treated.'
      : ` The plan kept these from knowing which walls were treated: ${kept.join(', ')}.`;
  return [paragraph(...drawn, blinding)];
}

function moisture(opinion: Opinion): Block[] {
  const { measurement, protocol } = opinion;
  const kind = protocol.instruments.find((instrument) => instrument.instrument === protocol.outcome.instrument)?.kind;
  const weighed =
    kind === 'gravimetric'
      ? 'Moisture content is on the dry basis: the mass of water that leaves a core in the oven over the core’s dry mass, wet less dry over dry less container. '
      : '';
  const typical =
    measurement.typical === undefined
      ? ''
      : `The typical standard uncertainty of one reading is ${formatNumber(measurement.typical.uncertainty, Math.min(6, outcomeDecimals(opinion) + 2))} ${protocol.outcome.unit}. `;
  return [
    paragraph(
      `${weighed}${typical}${measurementInWords(measurement)} How far walls and stations differ among themselves is in the intervals above already, and is usually larger.`,
    ),
  ];
}

function evidenceTable(): Table {
  const most = (count: number) => (Number.isFinite(count) ? `${count}` : 'any number');
  return {
    kind: 'table',
    caption: 'The rule for the evidence word: at most so many threats of each kind',
    columns: [
      { header: 'Evidence' },
      { header: 'Fatal', look: 'number' },
      { header: 'Serious', look: 'number' },
      { header: 'Minor', look: 'number' },
    ],
    rows: evidenceRules.map((rule) => [[rule.evidence], [most(rule.fatal)], [most(rule.serious)], [most(rule.minor)]]),
  };
}

function filesTable(files: readonly SourceFile[]): Table {
  return {
    kind: 'table',
    caption: 'The files, and how they were read',
    columns: [
      { header: 'File' },
      { header: 'Rows', look: 'number' },
      { header: 'Between cells' },
      { header: 'Decimals' },
    ],
    rows: files.map((file) => [
      [code(file.file)],
      [`${countInWords(file.rows, 'row').split(' ')[0]}`],
      [file.separator ?? 'does not apply'],
      [file.decimal ?? (file.separator === undefined ? 'does not apply' : 'none seen')],
    ]),
  };
}
