import type { VerdictCode } from '../../analysis/index.js';
import type { QuotedRates, RateDifference, UnitsOfArms } from '../../planning/error-rates/nearest-rates.js';
import type { RateTrouble } from '../../planning/error-rates/rate-designs.js';
import type { SimulatedLayout } from '../../planning/simulated-wall/simulated-design.js';
import { formatNumber } from '../../words/format-number.js';
import { type Block, type Line, paragraph, type Section } from '../document.js';

/** How often such a trial would mislead: counted in simulated trials of the nearest design. No section where nothing is quoted. */
export function errorRatesSection(rates: QuotedRates | undefined): Section | undefined {
  if (rates === undefined) return undefined;
  const { design, rows, differences } = rates;
  return {
    id: 'error-rates',
    heading: 'How often such a trial would mislead',
    blocks: [
      paragraph(
        `The same rule was applied to simulated trials whose truth is known. The nearest simulated design is “${design.label}”. ${sentences(rates).join(' ')} These are rates of the rule in that design; they do not say how probable it is that this verdict is right.`,
      ),
      table(rows),
      ...differs(differences),
    ],
  };
}

const shown: readonly (readonly [VerdictCode, string])[] = [
  ['worthwhile', 'worthwhile'],
  ['some-effect', 'some effect'],
  ['smaller-than-worthwhile', 'smaller than worthwhile'],
  ['no-worthwhile-effect', 'no worthwhile effect'],
  ['harmful', 'harmful'],
  ['undecided', 'undecided'],
  ['not-answerable', 'not answerable'],
];

const truths: Readonly<Record<string, string>> = {
  0: 'nothing',
  0.5: 'half the margin',
  1: 'the margin',
  1.5: 'one and a half margins',
  2: 'two margins',
};

function table(rows: QuotedRates['rows']): Block {
  const columns = shown.filter(([code]) => rows.some(({ verdicts }) => (verdicts.codes[code] ?? 0) > 0));
  return {
    kind: 'table',
    caption: `Of 1000 simulated trials, how many came to each verdict, by what the treatment truly did (${formatNumber(rows[0]?.verdicts.trials ?? 0, 0)} trials a row)`,
    columns: [
      { header: 'True effect' },
      ...columns.map(([, header]) => ({ header, look: 'number' as const })),
      { header: 'Coverage of the interval', look: 'number' },
    ],
    rows: rows.map(({ truth, verdicts }): Line[] => [
      [truths[truth] ?? `${truth} margins`],
      ...columns.map(([code]): Line => [perThousand(verdicts.codes[code] ?? 0, verdicts.trials)]),
      [verdicts.intervals === 0 ? 'none' : `${formatNumber((100 * verdicts.held) / verdicts.intervals, 1)} %`],
    ]),
  };
}

/** Never 0 for something that did happen. */
function perThousand(count: number, of: number): string {
  const share = (1000 * count) / of;
  return count > 0 && share < 0.5 ? 'under 1' : formatNumber(share, 0);
}

function sentences({ rows }: QuotedRates): readonly string[] {
  const of = (truth: number, code: VerdictCode) => {
    const row = rows.find((one) => one.truth === truth);
    return row === undefined ? undefined : perThousand(row.verdicts.codes[code] ?? 0, row.verdicts.trials);
  };
  const useless = of(0, 'worthwhile');
  const missed = of(1, 'no-worthwhile-effect');
  const seen = of(2, 'worthwhile');
  return [
    ...(useless === undefined ? [] : [`There a useless treatment was called worthwhile in ${useless} of 1000 trials.`]),
    ...(missed === undefined
      ? []
      : [`One that does as much as the margin was said to have no worthwhile effect in ${missed} of 1000.`]),
    ...(seen === undefined ? [] : [`One that does twice the margin was found worthwhile in ${seen} of 1000.`]),
  ];
}

function differs(differences: readonly RateDifference[]): readonly Block[] {
  const general =
    'Simulated walls are of one kind of brick, with one kind of treatment; how far walls spread and how they differ was chosen, not measured.';
  if (differences.length === 0)
    return [paragraph(`In layout, walls and precision this trial is like that design. ${general}`)];
  return [
    paragraph('This trial differs from that design:'),
    { kind: 'list', items: [...differences.map((one): Line => [inWords(one)]), [general]] },
  ];
}

const layouts: Readonly<Record<SimulatedLayout, string>> = {
  complete: 'walls without blocks',
  pairs: 'pairs',
  'blocks-of-four': 'blocks',
  houses: 'whole houses',
};

const troubles: Readonly<Record<RateTrouble, string>> = {
  nothing: 'nothing in particular',
  'two-walls': 'two walls and a series of visits',
  skew: 'changes that a few walls make much larger',
  'unlike-spread': 'arms whose changes spread unlike',
  autocorrelation: 'visits that are much alike',
  'drop-out': 'walls that were lost',
  leaks: 'leaks',
  'readers-say-they-knew': 'readers who knew the arm and said so',
  'readers-hide-that-they-knew': 'readers who knew the arm and hid it',
};

function inWords(difference: RateDifference): string {
  switch (difference.kind) {
    case 'not-randomised':
      return 'Its walls were chosen, and the design’s were randomised. What decided the choice can mislead in any number of trials.';
    case 'layout':
      return `It compares ${layouts[difference.own]}, the design ${layouts[difference.design]}.`;
    case 'units':
      return `It has ${unitsInWords(difference.own)}, the design ${unitsInWords(difference.design)}.`;
    case 'precision':
      return `Its interval reaches ${formatNumber(difference.own, 2)} margins to either side, the design’s ${formatNumber(difference.design, 2)} on average. ${difference.own > difference.design ? 'It finds an effect less often than the design does.' : 'It finds an effect more often than the design does.'}`;
    case 'trouble':
      return difference.of === 'trial'
        ? `It has ${troubles[difference.trouble]}, the design has not.`
        : `The design has ${troubles[difference.trouble]}, this trial has not.`;
  }
}

function unitsInWords({ treated, untreated }: UnitsOfArms): string {
  return `${treated} treated against ${untreated} untreated`;
}
