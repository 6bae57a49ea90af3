import type { Weakness } from '../opinion.js';
import { monthsInWords, monthsOf } from './calendar.js';
import { allottedTo, type Facts } from './facts.js';

export function marginAbsent({ marginOrigin }: Facts): Weakness | undefined {
  if (marginOrigin.kind !== 'none') return undefined;
  const { reason } = marginOrigin;
  return {
    code: 'margin-absent',
    seriousness: 'fatal',
    text:
      reason === undefined
        ? 'The plan does not say how large a difference would be worth paying for, so no result can be called worthwhile or not.'
        : `The plan takes the margin from its pass mark, which comes to none, because ${reason}; so no result can be called worthwhile or not.`,
    remedy: 'State the smallest worthwhile difference, in the outcome’s unit, before the first reading.',
  };
}

export function windowsAbsent({ trial }: Facts): Weakness | undefined {
  if (trial.protocol.windows !== undefined) return undefined;
  return {
    code: 'windows-absent',
    seriousness: 'fatal',
    text: 'The plan does not say which days count as before and which as after, so whoever picks them now picks the result.',
    remedy: 'State the before and the after window before the first reading.',
  };
}

export function planUndated({ trial }: Facts): Weakness | undefined {
  if (trial.protocol.plannedOn !== undefined) return undefined;
  return {
    code: 'plan-undated',
    seriousness: 'serious',
    text: 'The plan bears no date, so nothing shows that the margin and the windows were fixed before the readings were seen.',
    remedy: 'Date the plan, and lodge a copy with somebody outside the trial.',
  };
}

export function plannedLate({ trial }: Facts): Weakness | undefined {
  const { plannedOn, windows } = trial.protocol;
  if (plannedOn === undefined || windows === undefined || plannedOn <= windows.after.from) return undefined;
  return {
    code: 'planned-late',
    seriousness: 'serious',
    text: `The plan is dated ${plannedOn}, after the after window began on ${windows.after.from}: margin and windows may have been set with results in view.`,
    remedy: 'Fix the plan before the first reading.',
  };
}

export function windowsInDifferentMonths(facts: Facts): Weakness | undefined {
  const { windows } = facts.trial.protocol;
  if (windows === undefined) return undefined;
  const [before, after] = [new Set(monthsOf(windows.before)), new Set(monthsOf(windows.after))];
  const shared = [...before].filter((month) => after.has(month)).length;
  if (shared / new Set([...before, ...after]).size >= 0.5) return undefined;
  const hasControl = allottedTo(facts, 'untreated') > 0;
  return {
    code: 'windows-in-different-months',
    seriousness: hasControl ? 'minor' : 'serious',
    text: `The before window runs ${monthsInWords(windows.before)} and the after window ${monthsInWords(windows.after)}: part of every wall’s change is season${hasControl ? ', which the untreated walls take off only as far as both arms follow it alike' : ''}.`,
    remedy: 'Compare the same calendar months, a full year or two apart.',
  };
}

export function interestsNotStated({ trial }: Facts): Weakness | undefined {
  const { funding, interests } = trial.protocol.disclosures;
  const missing = [...(funding.trim() === '' ? ['who paid'] : []), ...(interests.trim() === '' ? ['who gains'] : [])];
  if (missing.length === 0) return undefined;
  return {
    code: 'interests-not-stated',
    seriousness: 'minor',
    text: `The plan does not state ${missing.join(' or ')}.`,
    remedy: 'State who paid for the trial and what interest anybody in it has in the result.',
  };
}
