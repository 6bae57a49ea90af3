import type { Opinion } from '../../opinion/opinion.js';
import { formatStated } from '../../words/format-number.js';
import { countInWords, differenceInWords, listInWords } from '../../words/quantity.js';
import type { AnnexName, See } from '../annex-names.js';
import { type Line, quoted, type Section } from '../document.js';
import { dayText } from '../words/report-numbers.js';

const methods = {
  randomised: 'Randomised',
  'randomised-in-blocks': 'Randomised inside blocks of like walls',
  'matched-pairs': 'Randomised inside matched pairs',
  chosen: 'Chosen, not randomised',
} as const;

/** The trial in one table: what was compared, how it was allocated, measured and kept blind, and what was fixed beforehand. */
export function trialSection(opinion: Opinion, see: See): Section {
  const { protocol, leftOutWalls, measurement } = opinion;
  const { outcome, allocation, disclosures, windows } = protocol;
  const row = (name: string, line: Line, at: AnnexName): readonly Line[] => [[name], line, [see(at, 'methods')]];
  const left = leftOutWalls.length === 0 ? '' : `; ${countInWords(leftOutWalls.length, 'wall')} excluded`;
  return {
    id: 'trial',
    heading: 'The trial',
    part: 'further',
    blocks: [
      {
        kind: 'table',
        caption: 'The trial',
        columns: [
          { header: 'What' },
          { header: 'As planned and recorded', look: 'prose' },
          { header: 'See', look: 'whole' },
        ],
        rows: [
          row('Walls compared', [`${wallsByRole(opinion)}${left}`], 'walls'),
          row(
            'Arms',
            protocol.arms.flatMap(({ arm, role }, index): Line => [index === 0 ? '' : '; ', quoted(arm), ` (${role})`]),
            'walls',
          ),
          row(
            'Allocation',
            [
              methods[allocation.method],
              ...(allocation.by === '' ? ['; by whom is not stated'] : [', by ', quoted(allocation.by)]),
            ],
            'methods',
          ),
          row(
            'Outcome',
            [
              quoted(outcome.quantity),
              ', ',
              quoted(outcome.unit),
              ', by ',
              quoted(outcome.instrument),
              `; ${countInWords(measurement.used, 'reading')} compared`,
            ],
            'instruments',
          ),
          row(
            'Before and after',
            [windows === undefined ? 'No windows were stated' : `${span(windows.before)}; ${span(windows.after)}`],
            'walls',
          ),
          row('Treated', [treated(opinion)], 'walls'),
          row('Kept blind', [blinded(opinion)], 'threats'),
          row('Plan', [plan(opinion)], 'plan'),
          row(
            'Paid for by',
            [disclosures.funding.trim() === '' ? 'not stated' : quoted(disclosures.funding)],
            'provenance',
          ),
          row(
            'Interests',
            [disclosures.interests.trim() === '' ? 'not stated' : quoted(disclosures.interests)],
            'provenance',
          ),
        ],
      },
    ],
  };
}

function wallsByRole({ walls }: Opinion): string {
  const count = (side: string) => walls.filter((wall) => wall.side === side).length;
  return `${count('treated')} treated, ${count('untreated')} untreated`;
}

function span({ from, to }: { readonly from: string; readonly to: string }): string {
  return `${dayText(from)} to ${dayText(to)}`;
}

function treated({ timeline }: Opinion): string {
  const [first, last] = [timeline.treatedDays.at(0), timeline.treatedDays.at(-1)];
  if (first === undefined || last === undefined) return 'No day of treatment was recorded';
  return first.day === last.day ? dayText(first.day) : `${dayText(first.day)} to ${dayText(last.day)}`;
}

function blinded({ protocol: { blinding } }: Opinion): string {
  const kept = (['readers', 'occupants', 'analyst'] as const).filter((who) => blinding[who]);
  return kept.length === 0 ? 'nobody' : `${listInWords(kept)}, by the plan`;
}

function plan({ protocol, marginOrigin, lock }: Opinion): string {
  const dated = protocol.plannedOn === undefined ? 'No date' : `Fixed on ${dayText(protocol.plannedOn)}`;
  const fixed = `${dated}, ${lock === undefined ? 'not sealed' : `sealed on ${dayText(lock.lockedOn)}`}`;
  if (protocol.margin === undefined) return `${fixed}; no worthwhile difference was stated`;
  const from = marginOrigin.kind === 'stated' ? '' : ', from the pass mark';
  const amount = differenceInWords(
    protocol.margin,
    protocol.outcome.unit,
    formatStated(protocol.margin).split('.')[1]?.length ?? 0,
  );
  return `${fixed}; worthwhile is ${amount} or more${from}`;
}
