import type { TrialPlan } from '../../planning/make-plan.js';
import { code, type Line, paragraph, type Section, strong } from '../../report/document.js';
import { planFolders } from '../plan-folders.js';
import { statedDifference } from './plan-words.js';

const ways = {
  complete: 'Every division of the walls with these numbers was equally likely.',
  pairs: 'In every pair chance decided which wall is treated.',
  blocks: 'In every block chance decided which walls are treated.',
  houses: 'Whole houses were drawn: a house and all its walls have one arm, and houses are the units.',
  'two-walls': 'Chance decided which of the two walls is treated.',
} as const;

/** Who knows the arms, and who does not; the seed stands nowhere on this page. */
export function allocationSection({ plan, allocation }: TrialPlan): Section {
  const { mostBeforeDifference, by } = plan.allocation;
  const { draws } = allocation;
  const constraint =
    mostBeforeDifference === undefined
      ? ''
      : ` Draws whose sides differed by more than ${statedDifference(mostBeforeDifference, plan.outcome.unit)} before were made again: it took ${draws === 1 ? 'one draw' : `${draws} draws`}. The randomisation test will look at no such allocation either.`;
  const sham = plan.arms.some(({ role }) => role === 'sham');
  const items: readonly Line[] = [
    [
      strong('The person who knows '),
      'has ',
      code('for-the-person-who-knows'),
      ': the arms, the seed, and a sealed page for each wall. This person reads nothing and computes nothing.',
    ],
    [
      strong('Those who read '),
      'have ',
      code('for-the-readers'),
      ': codes, labels, recording sheets and the forms for guesses. No arm stands on any of them.',
    ],
    [
      strong(sham ? 'The sham: ' : 'No sham: '),
      sham
        ? 'looks and sounds like the treatment and does nothing. Occupants and readers cannot tell the walls apart.'
        : 'whoever lives with the walls can see which were treated, and may heat and air them otherwise. A sham arm would prevent this.',
    ],
    [
      strong('The seal: '),
      'the person who knows sets it before the first reading, with ',
      code(`fairwall lock ${planFolders.knows}/${planFolders.toLock}`),
      ', publishes the line that it prints, and keeps ',
      code('lock.json'),
      '.',
    ],
    [strong('The arms '), 'and the seal enter the folder of the trial when the last reading is in it, and not before.'],
  ];
  return {
    id: 'allocation',
    heading: 'Who is treated, and who knows',
    blocks: [
      paragraph(
        `${ways[plan.planning.design]} ${allocation.walls.length} walls were drawn by a program from a seed, so that anybody can draw again who is given it.${constraint}${by === '' ? '' : ` Responsible: ${by}.`}`,
      ),
      { kind: 'list', items },
    ],
  };
}
