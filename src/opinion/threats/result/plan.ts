import { reasonInWords } from '../../../labels/index.js';
import { isoDay } from '../../../plain/days.js';
import type { Facts } from '../facts.js';
import { found, notFound, type Search, silent } from '../threat.js';

export const marginAbsent: Search = {
  code: 'margin-absent',
  domain: 'choice-of-result',
  name: 'No margin',
  lookedFor: 'the plan says how large a difference would be worth paying for',
  direction: 'either way',
  remedy: 'State the smallest worthwhile difference, in the outcome’s unit, before the first reading.',
  look: ({ facts: { marginOrigin, trial } }) => {
    const { margin, outcome } = trial.protocol;
    if (marginOrigin.kind !== 'none') return notFound(`The margin is ${margin} ${outcome.unit}.`);
    const { reason } = marginOrigin;
    return found(
      'serious',
      reason === undefined
        ? 'The plan does not say how large a difference would be worth paying for, so no result can be called worthwhile or not.'
        : `The plan takes the margin from its pass mark, but ${reasonInWords(reason)}; so no result can be called worthwhile or not.`,
    );
  },
};

export const planUndated: Search = {
  code: 'plan-undated',
  domain: 'choice-of-result',
  name: 'A plan without a date',
  lookedFor: 'the plan bears the day on which it was fixed',
  direction: 'towards the claim',
  remedy: 'Date the plan, and lodge a copy with somebody outside the trial.',
  restsOn: ['plan-day'],
  look: ({ facts: { trial } }) => {
    const { plannedOn } = trial.protocol;
    if (plannedOn !== undefined)
      return notFound(`The plan is dated ${plannedOn}; the date is a statement of the folder.`);
    return silent(
      '`plannedOn` in the plan',
      'The plan bears no date, so nothing shows that the margin and the windows were fixed before the readings were seen.',
    );
  },
};

export const plannedLate: Search = {
  code: 'planned-late',
  domain: 'choice-of-result',
  name: 'A plan made with results in view',
  lookedFor: 'the plan is older than the first reading after the treatment',
  direction: 'towards the claim',
  remedy: 'Fix the plan before the first reading.',
  restsOn: ['plan-day'],
  look: ({ facts }) => {
    const { plannedOn, windows } = facts.trial.protocol;
    if (plannedOn === undefined || windows === undefined) return undefined;
    const first = firstReadingAfterTreatment(facts);
    const reading = first === undefined ? '' : `, the first reading after the treatment ${first}`;
    const text = `The plan is dated ${plannedOn}${reading}; the after window began on ${windows.after.from}.`;
    if (plannedOn <= windows.after.from && (first === undefined || plannedOn <= first)) return notFound(text);
    return found('serious', `${text} Margin, windows and outcome may have been set with results in view.`);
  },
};

/**
 * The first reading that could show a result: of whatever instrument that tells of moisture, on a compared wall, after its own
 * treatment (an untreated wall’s: after the first of all), or after the before window where no day is stated.
 */
function firstReadingAfterTreatment({ trial, sides }: Facts): string | undefined {
  const { windows, instruments } = trial.protocol;
  if (windows === undefined) return undefined;
  const days = new Map(trial.walls.map(({ wall, treatedOn }) => [wall, treatedOn]));
  const first = [...days].flatMap(([wall, day]) => (sides.has(wall) && day !== undefined ? [day] : [])).sort()[0];
  const potentials = new Set(instruments.flatMap(({ instrument, kind }) => (kind === 'potential' ? [instrument] : [])));
  const rows = [...trial.cores, ...trial.readings.filter(({ instrument }) => !potentials.has(instrument))];
  let earliest: string | undefined;
  for (const { wall, date } of rows) {
    if (!sides.has(wall)) continue;
    const treatedOn = days.get(wall) ?? first;
    const day = isoDay(date);
    const isAfter = treatedOn === undefined ? day > windows.before.to : day > treatedOn;
    if (isAfter && (earliest === undefined || day < earliest)) earliest = day;
  }
  return earliest;
}
