import type { Departure } from '../../findings/lock/departures-from-lock.js';
import { reasonInWords } from '../../labels/index.js';
import { departedThing, partNames, plannedValue } from '../../opinion/lock/departure-in-words.js';
import type { VerdictAsLocked } from '../../opinion/lock/lock-part.js';
import type { Opinion } from '../../opinion/opinion.js';
import { intervalInWords } from '../../words/movement.js';
import { countInWords, quantityInWords } from '../../words/quantity.js';
import { type Block, code, type Line, paragraph, quoted, type Section, strong } from '../document.js';

/** The plan as it was sealed, what departs from it, and the verdict as locked. No section where nothing was sealed. */
export function lockSection({ lock, verdict, protocol }: Opinion): Section | undefined {
  if (lock === undefined) return undefined;
  const { lockedOn, sha256, departures, asLocked } = lock;
  return {
    id: 'lock',
    heading: 'The plan as it was locked',
    blocks: [
      paragraph(
        `The plan was sealed on ${lockedOn} by the clock of the machine that sealed it. The digits of the seal: `,
        code(sha256),
        '. They prove nothing by themselves: ask somebody outside the trial who has held them since that day.',
      ),
      ...(departures.length === 0
        ? [
            paragraph(
              'What was done is what was sealed: margin, windows, outcome, arms, walls, analysis and instruments.',
            ),
          ]
        : departedBlocks(departures)),
      ...verdictBlocks(asLocked, verdict.code, protocol.outcome.unit),
    ],
  };
}

function departedBlocks(departures: readonly Departure[]): readonly Block[] {
  return [
    paragraph(
      `${countInWords(departures.length, 'thing')} ${departures.length === 1 ? 'is' : 'are'} otherwise than sealed. A departure may have good reasons; it may also have been made with results in view.`,
    ),
    {
      kind: 'table',
      caption: 'What is otherwise than it was sealed',
      columns: [
        { header: 'What' },
        { header: 'Part of the plan' },
        { header: 'As sealed', look: 'prose' },
        { header: 'Now', look: 'prose' },
      ],
      rows: departures.map((one): Line[] => [
        [quoted(departedThing(one))],
        [partNames[one.part]],
        [quoted(plannedValue(one.locked))],
        [quoted(plannedValue(one.now))],
      ]),
    },
  ];
}

function verdictBlocks(asLocked: VerdictAsLocked, own: string, unit: string): readonly Block[] {
  switch (asLocked.kind) {
    case 'the-same':
      return [];
    case 'not-possible':
      return [paragraph(strong('The verdict as locked'), ` cannot be given: ${reasonInWords(asLocked.reason)}.`)];
    case 'judged': {
      const { primary, margin } = asLocked;
      const numbers =
        primary.kind === 'estimated'
          ? ` The treated walls’ change less the untreated walls’ is then ${quantityInWords(primary.estimate.estimate, asLocked.unit)} (${intervalInWords(primary.estimate.interval)})${margin === undefined ? '' : `, against a margin of ${quantityInWords(margin, asLocked.unit)}`}.`
          : ` There is then no interval: ${reasonInWords(primary.reason)}.`;
      const held = asLocked.code === own && asLocked.unit === unit ? 'the same as' : 'beside';
      return [
        paragraph(
          strong('The verdict as locked'),
          ` is “${asLocked.code}”, with evidence ${asLocked.evidence}; ${held} “${own}” of this opinion.${numbers}`,
        ),
      ];
    }
  }
}
