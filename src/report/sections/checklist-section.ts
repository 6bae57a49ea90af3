import type { Opinion } from '../../opinion/opinion.js';
import type { See } from '../annex-names.js';
import { type Inline, type Line, paragraph, type Section } from '../document.js';

/** An item as it applies to walls; where it is answered, or that the folder does not answer it. */
interface Item {
  readonly topic: string;
  readonly asks: string;
  readonly answered: (opinion: Opinion) => boolean;
  readonly at: (see: See) => Inline;
}

const yes = () => true;
const isRandomised = ({ protocol }: Opinion) => protocol.allocation.method !== 'chosen';
const main = (text: string, to: string) => () => ({ kind: 'link', text, to }) as const;

const items: readonly Item[] = [
  {
    topic: 'Design',
    asks: 'what the units are and how they were compared',
    answered: yes,
    at: (see) => see('methods'),
  },
  {
    topic: 'Eligibility',
    asks: 'which walls could enter, and how they were found',
    answered: ({ protocol }) => protocol.selection !== undefined,
    at: (see) => see('threats'),
  },
  {
    topic: 'Interventions',
    asks: 'what was done to the walls of each arm',
    answered: ({ protocol, injection }) => protocol.treatment !== undefined || injection !== undefined,
    at: main('The trial', 'trial'),
  },
  {
    topic: 'Outcomes',
    asks: 'the outcome, its instrument and its unit, fixed beforehand',
    answered: ({ protocol }) => protocol.plannedOn !== undefined,
    at: main('The trial', 'trial'),
  },
  {
    topic: 'Number of walls',
    asks: 'how the number of walls was chosen',
    answered: () => false,
    at: (see) => see('methods'),
  },
  {
    topic: 'Sequence',
    asks: 'how the random order was made',
    answered: (opinion) => isRandomised(opinion) && opinion.protocol.allocation.seed !== undefined,
    at: (see) => see('methods'),
  },
  {
    topic: 'Who allocated',
    asks: 'who decided which walls were treated',
    answered: ({ protocol }) => protocol.allocation.by !== '',
    at: main('The trial', 'trial'),
  },
  {
    topic: 'Blinding',
    asks: 'who was kept from knowing, and whether it held',
    answered: ({ protocol: { blinding } }) => blinding.readers || blinding.occupants || blinding.analyst,
    at: (see) => see('threats'),
  },
  {
    topic: 'Statistical methods',
    asks: 'how the units were taken into account',
    answered: yes,
    at: (see) => see('methods'),
  },
  {
    topic: 'Flow of walls',
    asks: 'how many walls were in each arm, lost and excluded, and why',
    answered: yes,
    at: (see) => see('left-out'),
  },
  {
    topic: 'Dates',
    asks: 'when walls were read and treated',
    answered: ({ timeline }) => timeline.treatedDays.length > 0,
    at: (see) => see('walls'),
  },
  {
    topic: 'Baseline',
    asks: 'how the walls stood before',
    answered: ({ walls }) => walls.some(({ before }) => before !== undefined),
    at: (see) => see('walls'),
  },
  {
    topic: 'Estimate',
    asks: 'the difference with its interval',
    answered: ({ primary }) => primary.kind === 'estimated',
    at: (see) => see('analyses'),
  },
  {
    topic: 'Ancillary analyses',
    asks: 'which other analyses were made, planned or not',
    answered: ({ analyses }) => analyses.length > 0,
    at: (see) => see('robustness', 'analyses'),
  },
  { topic: 'Harms', asks: 'unwanted effects of the treatment', answered: () => false, at: (see) => see('limits') },
  { topic: 'Limitations', asks: 'sources of bias and of imprecision', answered: yes, at: (see) => see('threats') },
  { topic: 'Generalisability', asks: 'for which other walls it holds', answered: yes, at: (see) => see('limits') },
  {
    topic: 'Registration',
    asks: 'where the plan was lodged before the readings',
    answered: ({ lock }) => lock !== undefined,
    at: (see) => see('plan', 'methods'),
  },
  {
    topic: 'Funding',
    asks: 'who paid, and what they had to do with it',
    answered: ({ protocol }) => protocol.disclosures.funding.trim() !== '',
    at: (see) => see('provenance'),
  },
];

/** The items of the published statement on reporting cluster randomised trials that apply to walls. */
export function checklistSection(opinion: Opinion, see: See): Section {
  return {
    id: 'checklist',
    heading: 'Reporting checklist',
    blocks: [
      paragraph(
        'The items of the published statement on cluster randomised trials that apply to walls, in our words (its reference stands in ',
        see('methods'),
        '). “Not stated”: the trial folder does not say.',
      ),
      {
        kind: 'table',
        caption: 'Where each item is answered',
        columns: [{ header: 'Item' }, { header: 'What it asks', look: 'prose' }, { header: 'Answered' }],
        rows: items.map(({ topic, asks, answered, at }): readonly Line[] => [
          [topic],
          [asks],
          answered(opinion) ? [at(see)] : ['not stated'],
        ]),
      },
    ],
  };
}
