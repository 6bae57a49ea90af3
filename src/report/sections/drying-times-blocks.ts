import type { DryingShown, TimesOfArms } from '../../findings/drying/drying-part.js';
import type { Opinion } from '../../opinion/opinion.js';
import type { LogRank } from '../../statistics/index.js';
import { formatNumber, formatStated } from '../../words/format-number.js';
import { type Block, type Line, paragraph, quoted, type Table } from '../document.js';
import { pValueText } from '../words/report-numbers.js';

/** When walls had come as far down as the plan asks: to the moisture that it calls dry, and lower by the margin. */
export function dryingTimesBlocks({ times, timesToDry }: DryingShown, { protocol }: Opinion): readonly Block[] {
  const { unit } = protocol.outcome;
  const goals = [
    ...(timesToDry === undefined
      ? []
      : [
          {
            found: timesToDry,
            soFar: `at ${formatStated(timesToDry.limit)} ${unit} or below, which the plan calls dry`,
          },
        ]),
    ...(times === undefined
      ? []
      : [{ found: times, soFar: `lower than at the start by the margin, ${formatStated(times.fall)} ${unit}` }]),
  ];
  if (goals.length === 0) return [];
  const isAlone = goals.every(({ found }) => isOneEach(found));
  return [
    ...goals.flatMap(({ found, soFar }) => ofGoal(found, soFar)),
    paragraph(`${meaning}${isAlone ? '' : meaningOfArms}`),
  ];
}

const meaning =
  'A wall that came so far and rose again has not come so far yet. A wall is found at a visit, later than it happened.';
const meaningOfArms =
  ' Walls that had not come so far count for as long as they were read. Between which visits half of an arm’s walls came to it is estimated from the visits on either side alone (Turnbull’s estimate).';

function isOneEach({ arms }: TimesOfArms): boolean {
  return arms.every(({ walls }) => walls === 1);
}

function ofGoal(found: TimesOfArms, soFar: string): readonly Block[] {
  const caption = `Until a wall stood ${soFar}, and stayed so`;
  if (isOneEach(found)) return [tableOfWalls(found, caption)];
  return [tableOfArms(found, caption), ...course(found), paragraph(testText(found.logRank))];
}

function tableOfArms({ arms }: TimesOfArms, caption: string): Table {
  return {
    kind: 'table',
    caption,
    columns: [
      { header: 'Arm' },
      { header: 'Walls', look: 'number' },
      { header: 'Came so far', look: 'number' },
      { header: 'Half of them by day (when found)', look: 'number' },
      { header: 'Half of them between days (estimated)', look: 'number' },
    ],
    rows: arms.map(({ arm, walls, fallen, median_d, medianBetween_d }) => [
      [quoted(arm)],
      [formatNumber(walls, 0)],
      [formatNumber(fallen, 0)],
      [dayOf(median_d)],
      [betweenText(medianBetween_d)],
    ]),
  };
}

/** With one wall an arm its day is its wall’s. */
function tableOfWalls({ arms }: TimesOfArms, caption: string): Table {
  return {
    kind: 'table',
    caption,
    columns: [
      { header: 'Arm' },
      { header: 'Found on day', look: 'number' },
      { header: 'Between days', look: 'number' },
    ],
    rows: arms.map(({ arm, median_d, medianBetween_d }) => [
      [quoted(arm)],
      [dayOf(median_d)],
      [betweenText(medianBetween_d)],
    ]),
  };
}

function dayOf(day: number | undefined): string {
  return day === undefined ? 'not by the last visit' : formatNumber(day, 0);
}

/** No wall was seen at day −1: one that was so at its first visit came to it before. */
function betweenText(between: { readonly after: number; readonly by: number } | undefined): string {
  if (between === undefined) return 'not known';
  return `${formatNumber(Math.max(0, between.after), 0)} and ${formatNumber(between.by, 0)}`;
}

function testText(logRank: LogRank | undefined): string {
  if (logRank === undefined)
    return 'The arms’ times could not be compared: too few walls came so far after the start, or all at once.';
  const { observed, expected, clustered } = logRank;
  return `Compared by the log-rank test with walls as the units: ${formatNumber(observed, 0)} treated ${observed === 1 ? 'wall' : 'walls'} came so far, where ${formatNumber(expected, 1)} would have if the arms were alike (${pValueText(clustered)}).`;
}

function course({ arms, days }: TimesOfArms): readonly Table[] {
  if (days.length < 2) return [];
  return [
    {
      kind: 'table',
      caption:
        'Walls not yet found so far, in % (product limit), and in brackets how many of them were still being read',
      columns: [
        { header: 'Arm' },
        ...days.map((day) => ({ header: `Day ${formatNumber(day, 0)}`, look: 'number' as const })),
      ],
      rows: arms.map(({ arm, course: told }): readonly Line[] => [
        [quoted(arm)],
        ...told.map(
          ({ notYet, followed }): Line => [
            notYet === undefined ? 'no longer read' : `${formatNumber(100 * notYet, 0)} (${followed})`,
          ],
        ),
      ]),
    },
  ];
}
