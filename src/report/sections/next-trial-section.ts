import type { NextSize, NextTrial, NextWay } from '../../planning/index.js';
import { formatNumber } from '../../words/format-number.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, type Section } from '../document.js';

/** What would settle what this trial leaves open: its walls, visits, months and cost, or that no trial of a payable size would. */
export function nextTrialSection(next: NextTrial | undefined): Section | undefined {
  if (next === undefined) return undefined;
  return { id: 'next-trial', heading: 'The trial that would settle it', blocks: blocksOf(next) };
}

const reasons: Readonly<Record<Extract<NextTrial, { kind: 'not-planned' }>['reason'], string>> = {
  'no-margin': 'the plan states no margin: without one nobody can say what is worthwhile, whatever the number of walls',
  'no-windows':
    'the plan states no before and after windows, so that there is no change from which walls’ spread could be taken',
  'units-not-walls':
    'whole houses or stretches of wall were allocated, and the spread of single walls does not say how these differ. “fairwall plan” takes a stated spread',
  'no-two-walls-alike':
    'no two walls of one arm have a change, and one wall an arm shows nothing of how walls treated alike differ. A pilot of at least four walls in each arm would',
  'no-spread': 'the changes of the walls of an arm do not differ',
};

function blocksOf(next: NextTrial): readonly Block[] {
  if (next.kind === 'not-planned') return [paragraph(`No number of walls is given, because ${reasons[next.reason]}.`)];
  const { walls, effect, margin, months, ways } = next;
  const isCosted = ways.some(({ sizes }) => sizes.some(({ cost }) => cost !== undefined));
  return [
    paragraph(
      `From the spread of the changes of ${countInWords(walls, 'wall')} of this trial, with the uncertainty of so few: walls ${layouts[next.design]}, arms of one size, followed for ${countInWords(months, 'month')}. A treatment that does ${formatNumber(effect / margin, 0)} times the margin would then be called worthwhile with the chance stated, and a useless one would be denied with the chance beside it.`,
    ),
    {
      kind: 'table',
      caption: 'Walls that would settle it, both arms together',
      columns: [
        { header: 'Read' },
        { header: 'Chance wanted', look: 'number' },
        { header: 'Walls', look: 'number' },
        { header: 'Readings', look: 'number' },
        { header: 'A useless treatment denied', look: 'number' },
        ...(isCosted ? [{ header: 'Cost, as the plan states it', look: 'number' as const }] : []),
      ],
      rows: ways.flatMap((way) => way.sizes.map((size) => rowOf(way, size, isCosted))),
    },
    paragraph(
      `These walls must be randomised, and what counts against this trial must be put right. More walls do not mend a fault.${noneText(ways)} “fairwall plan” makes such a plan, with its own costs, calendar and sealed allocation.`,
    ),
  ];
}

const layouts = { complete: 'drawn one by one', pairs: 'drawn in pairs' } as const;

function rowOf(way: NextWay, { chance, needed, denied, cost }: NextSize, isCosted: boolean): readonly Line[] {
  const { stations, visitsBefore, visitsAfter } = way;
  const visits = visitsBefore + visitsAfter;
  const percent = (share: number) => `${formatNumber(100 * share, 0)} %`;
  const read = `${countInWords(stations, 'place')} a wall, ${countInWords(visitsBefore, 'visit')} before and ${visitsAfter} after`;
  const costs: readonly Line[] = isCosted ? [[cost === undefined ? 'not known' : formatNumber(cost, 0)]] : [];
  if (needed.kind === 'too-many')
    return [[read], [percent(chance)], [`more than ${needed.most}`], ['not known'], ['not known'], ...costs];
  return [
    [read],
    [percent(chance)],
    [`${needed.walls}`],
    [formatNumber(needed.walls * stations * visits, 0)],
    [percent(denied)],
    ...costs,
  ];
}

function noneText(ways: readonly NextWay[]): string {
  const most = ways.flatMap(({ sizes }) =>
    sizes.flatMap(({ needed }) => (needed.kind === 'too-many' ? needed.most : [])),
  );
  const isAlways = ways.every(({ sizes }) => sizes.every(({ needed }) => needed.kind === 'too-many'));
  if (!isAlways) return '';
  return ` No trial of up to ${most[0]} walls (our convention for what can be paid for) would settle it: walls like these scatter too much for this margin. Only a larger margin, or walls more alike, would help.`;
}
