import type { Answer, Estimate } from '../../analysis/index.js';
import { estimateInWords, labelOf, reasonInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import type { AdjustmentName } from '../../trial/index.js';
import { decimalsFor, formatNumber, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { listInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, strong, type Table } from '../document.js';
import { pValueText } from '../words/report-numbers.js';

/** Treated against untreated walls in all that was measured of their drying; how, and what could not be. */
export function comparisonBlocks(opinion: Opinion, answers: readonly Answer[]): readonly Block[] {
  const estimates = estimatesOf(answers);
  return [
    ...(estimates.length === 0
      ? []
      : [
          tableOf(opinion, estimates, {
            caption: 'Treated against untreated walls, walls as the units',
            what: 'Measure',
            number: 'Treated against untreated',
          }),
          { kind: 'list' as const, items: methodLines(estimates) },
        ]),
    ...notMade(answers),
  ];
}

/** The difference of changes adjusted for season and weather, below the primary one. */
export function adjustedBlocks(opinion: Opinion, answers: readonly Answer[]): readonly Block[] {
  const { protocol, primary } = opinion;
  if (answers.length === 0) return [];
  const found = estimatesOf(answers);
  if (found.length === 0) return notMade(answers);
  const main = primary.kind === 'estimated' ? [primary.estimate] : [];
  return [
    { kind: 'subheading', text: 'Adjusted for season and weather' },
    paragraph(
      `The untreated walls at the same time remain the main answer, for they share season and weather with the treated ones. Beside it stands the same difference, each visit adjusted for what moves all walls: ${chosenText(answers, protocol.adjustments ?? [])}.`,
    ),
    tableOf(opinion, [...main, ...found], {
      caption: `Treated walls’ change less untreated walls’, in ${protocol.outcome.unit}`,
      what: 'Analysis',
      number: 'Difference',
    }),
    { kind: 'list', items: methodLines(found) },
    ...notMade(answers),
  ];
}

interface Heads {
  readonly caption: string;
  readonly what: string;
  readonly number: string;
}

function tableOf({ protocol }: Opinion, estimates: readonly Estimate[], { caption, what, number }: Heads): Table {
  return {
    kind: 'table',
    caption,
    columns: [
      { header: what },
      { header: number, look: 'number' },
      { header: `${levelInWords(protocol.confidence)} interval`, look: 'number' },
      { header: 'Unit' },
      { header: 'p-value', look: 'number' },
      { header: 'Walls', look: 'number' },
    ],
    rows: estimates.map(rowOf),
  };
}

function rowOf(estimate: Estimate): readonly Line[] {
  const { interval, unit, walls } = estimate;
  const decimals = interval === undefined ? 2 : Math.min(4, decimalsFor((interval.upper - interval.lower) / 2));
  const number = unit === 'ratio' ? formatNumber : formatSigned;
  const limits =
    interval === undefined ? 'none' : `${number(interval.lower, decimals)} to ${number(interval.upper, decimals)}`;
  return [
    [labelOf(estimate)],
    [number(estimate.estimate, decimals)],
    [limits],
    [unit],
    [pValueText(estimate)],
    [`${walls.treated} + ${walls.untreated}`],
  ];
}

/** Measures made alike share a line. */
function methodLines(estimates: readonly Estimate[]): readonly Line[] {
  const told = estimates.map((estimate) => {
    const { method, assumptions } = estimateInWords(estimate);
    return `: ${method}. Assumptions: ${assumptions.join('; ')}.`;
  });
  return [...new Set(told)].map((text): Line => {
    const labels = estimates.filter((_, k) => told[k] === text).map(labelOf);
    return [strong(labels.join('; ')), text];
  });
}

function notMade(answers: readonly Answer[]): readonly Block[] {
  const failed = answers.flatMap((answer) => (answer.kind === 'not-estimated' ? [answer.notEstimated] : []));
  if (failed.length === 0) return [];
  const told = failed.map((one) => ({ label: labelOf(one), reason: reasonInWords(one.reason) }));
  const reasons = [...new Set(told.map(({ reason }) => reason))];
  const items = reasons.map((reason): Line => {
    const labels = told.filter((one) => one.reason === reason).map(({ label }) => label);
    return [strong(labels.join('; ')), `: not computed, because ${reason}.`];
  });
  return [{ kind: 'list', items }];
}

/** What stands in the table, by whether the plan named it. */
function chosenText(answers: readonly Answer[], adjustments: readonly AdjustmentName[]): string {
  const shownNames = adjustmentNames.filter((name) => answers.some((answer) => idOf(answer) === `${name}-adjusted`));
  const planned = shownNames.filter((name) => adjustments.includes(name));
  const later = shownNames.filter((name) => !planned.includes(name));
  const checks = later.length === 1 ? 'a sensitivity check' : 'sensitivity checks';
  if (planned.length === 0) return `${checks}, chosen after the readings`;
  if (later.length === 0)
    return `${planned.length === 1 ? listInWords(planned) : 'all'} named in the plan before the readings`;
  return `${listInWords(planned)} named in the plan before the readings, ${listInWords(later)} ${checks} chosen after them`;
}

const adjustmentNames = ['season', 'weather', 'rain', 'heating'] as const satisfies readonly AdjustmentName[];

function idOf(answer: Answer): string {
  return answer.kind === 'estimated' ? answer.estimate.id : answer.notEstimated.id;
}

function estimatesOf(answers: readonly Answer[]): readonly Estimate[] {
  return answers.flatMap((answer) => (answer.kind === 'estimated' ? [answer.estimate] : []));
}
