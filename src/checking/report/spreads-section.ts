import { paragraph, type Section, type Table } from '../../report/document.js';
import { numberInWords } from '../../words/quantity.js';
import { fewestWallsForChanges, type Spread } from '../spreads.js';
import type { TrialOverview } from '../trial-overview.js';

const names: Readonly<Record<Spread['id'], string>> = {
  places: 'Places of one wall on one visit',
  visits: 'Visits of one place inside a window',
  'walls-before': 'Walls before the treatment',
  changes: 'Changes of walls, the effect of the treatment included',
};

/** How readings scatter, over all walls together. */
export function spreadsSection({ spreads, protocol }: TrialOverview): Section {
  const { quantity, unit } = protocol.outcome;
  const table: Table = {
    kind: 'table',
    caption: `Standard deviations of ${quantity} in ${unit}, all walls together whatever their arm`,
    columns: [
      { header: 'Of' },
      { header: 'Standard deviation', look: 'number' },
      { header: 'Degrees of freedom', look: 'number' },
    ],
    rows: spreads.map(({ id, standardDeviation, degreesOfFreedom }) => [
      [names[id]],
      [numberInWords(standardDeviation)],
      [`${degreesOfFreedom}`],
    ]),
  };
  const withheld = spreads.some(({ id }) => id === 'changes')
    ? []
    : [
        paragraph(
          `The standard deviation of changes is shown from ${fewestWallsForChanges} walls on, read in both windows: of fewer it would tell how large the difference is.`,
        ),
      ];
  const none = paragraph('There are too few readings inside the windows to say how they scatter.');
  return {
    id: 'spreads',
    heading: 'How readings scatter',
    blocks: [...(spreads.length === 0 ? [none] : [table]), ...withheld],
  };
}
