import type { AnswerResult, BelowDetection, InstrumentFacts } from '../../findings/instruments/instrument-facts.js';
import { reasonInWords } from '../../labels/index.js';
import { verdictInWords } from '../../opinion/threats/turn-in-words.js';
import { decimalsFor, formatNumber, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords, shareInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted, type Table } from '../document.js';
import { intervalText } from '../words/report-numbers.js';

/** How many readings lie below the detection limit, where, and how the answer moves with the way in which they are counted. */
export function belowBlocks({ instrument, unit, belowDetection }: InstrumentFacts, level: number): readonly Block[] {
  if (belowDetection === undefined) return [];
  const { below, readings, walls, where, bounds } = belowDetection;
  const { treated, untreated } = where;
  const count = (value: number) => formatNumber(value, 0);
  return [
    paragraph(
      `${count(below)} of ${countInWords(readings, 'reading')} of `,
      quoted(instrument),
      ` in the windows (${shareInWords(below, readings)}), on ${countInWords(walls, 'wall')}, lie below its detection limit: on treated walls ${count(treated.before)} before and ${count(treated.after)} after, on untreated walls ${count(untreated.before)} and ${count(untreated.after)}. The analyses leave these out and count them; no number is put in their place. The table shows what that does to the answer. Each is counted at its expected value below the limit, given the other readings of its wall and window; the walls are then compared as before.`,
    ),
    waysTable(belowDetection, unit, level),
    ...notComputed(belowDetection),
    bounds.kind === 'computed'
      ? paragraph(
          `Whatever they were between 0 and their limit, the difference lies from ${boundsText(bounds.value, decimalsOf(belowDetection))} ${unit}.`,
        )
      : paragraph(
          `Between which bounds the difference lies whatever they were cannot be said: ${reasonInWords(bounds.reason)}.`,
        ),
  ];
}

function boundsText({ lower, upper }: { readonly lower: number; readonly upper: number }, decimals: number): string {
  return `${formatSigned(lower, decimals)} to ${formatSigned(upper, decimals)}`;
}

const ways = [
  ['leftOut', 'excluded, as in the analyses'],
  ['likelihood', 'maximum likelihood, normal shape, one spread for all walls'],
  ['productLimit', 'Kaplan–Meier, each wall and window by itself'],
] as const;

function waysTable(below: BelowDetection, unit: string, level: number): Table {
  const decimals = decimalsOf(below);
  const judged = ways.some(([way]) => below[way].kind === 'computed' && below[way].value.code !== undefined);
  return {
    kind: 'table',
    caption: 'The primary comparison by how readings below the limit are counted',
    columns: [
      { header: 'Counted by' },
      { header: `Difference (${unit})`, look: 'number' },
      { header: `${levelInWords(level)} interval`, look: 'number' },
      { header: 'Walls', look: 'number' },
      ...(judged ? [{ header: 'Verdict' }] : []),
    ],
    rows: ways.map(([way, name]) => [[name], ...cellsOf(below[way], decimals, judged)]),
  };
}

function cellsOf(result: AnswerResult, decimals: number, judged: boolean): readonly Line[] {
  if (result.kind === 'not-computed') return Array.from({ length: judged ? 4 : 3 }, () => ['none']);
  const { estimate, interval, walls, code: verdict } = result.value;
  return [
    [formatSigned(estimate, decimals)],
    [intervalText(interval, decimals)],
    [`${walls.treated} + ${walls.untreated}`],
    ...(judged ? [verdict === undefined ? ['none'] : [verdictInWords(verdict)]] : []),
  ];
}

function notComputed(below: BelowDetection): readonly Block[] {
  return ways.flatMap(([way, name]) => {
    const result = below[way];
    return result.kind === 'computed' ? [] : [paragraph(`No answer by ${name}: ${reasonInWords(result.reason)}.`)];
  });
}

/** Those of the answer with the readings left out, so that the rows can be compared. */
function decimalsOf({ leftOut, likelihood, productLimit }: BelowDetection): number {
  const first = [leftOut, likelihood, productLimit].find((result) => result.kind === 'computed');
  if (first?.kind !== 'computed') return 1;
  const { lower, upper } = first.value.interval;
  return decimalsFor((upper - lower) / 2);
}
