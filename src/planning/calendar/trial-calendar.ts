import type { Reason } from '../../analysis/index.js';
import {
  assumedWall,
  moistureTransfer_kg_m2_s_pa,
  type WaitForMargin,
  waitForMargin,
  winterPressure_pa,
} from '../../drying/index.js';
import { daysInMonth, monthNumber, yearsLater } from '../../plain/calendar.js';
import { addDays, daysBetween } from '../../plain/days.js';
import { unitsPerPercentByMass, type Window } from '../../trial/index.js';
import { PlanningError } from '../planning-error.js';

/** What the calendar has to respect. */
export interface CalendarQuestion {
  /** The windows that the plan states; without them they are found from the first day. */
  readonly windows?: { readonly before: Window; readonly after: Window };
  /** The first day on which walls can be read. */
  readonly firstDay?: string;
  readonly visitsBefore: number;
  readonly visitsAfter: number;
  /** In the unit of the outcome. */
  readonly margin: number;
  readonly unit: string;
  readonly better: 'lower' | 'higher';
  readonly thickness_mm?: number;
  readonly dryDensity_kg_m3?: number;
  readonly pressure_pa?: number;
}

export interface PlannedVisit {
  readonly number: number;
  readonly day: string;
  readonly window: 'before' | 'after';
}

export interface CalendarWait extends WaitForMargin {
  readonly thickness_mm: number;
  readonly density_kg_m3: number;
  readonly pressure_pa: number;
}

export interface TrialCalendar {
  readonly before: Window;
  readonly after: Window;
  /** The day on which walls are treated: all of them, the sham as well. */
  readonly treatment: string;
  readonly visits: readonly PlannedVisit[];
  /** From the first visit to the last, in months of 30.4 days, rounded up. */
  readonly months: number;
  /** How long walls need to lose the margin once no more water enters. */
  readonly wait:
    | { readonly kind: 'computed'; readonly wait: CalendarWait }
    | { readonly kind: 'none'; readonly reason: Reason };
  /** What a calendar with windows of its own does worse than one found from the first day. */
  readonly departures: readonly CalendarDeparture[];
}

export type CalendarDeparture =
  | { readonly kind: 'other-months' }
  | { readonly kind: 'too-early'; readonly days: number; readonly wait_d: number }
  | { readonly kind: 'few-before'; readonly visits: number };

/** Three months, so that visits are a few weeks apart (our convention). */
const windowLength_d = 91;
/** Between the last visit before and the treatment (our convention). */
const toTreatment_d = 7;
/** With fewer, nothing shows whether walls were at rest before: as the threat of that name has it. */
export const fewestVisitsForRest = 4;

/**
 * When walls are read and treated: the after window lies on the same days of the year as the before window, so that the season is the same,
 * and as many years later as the walls need to lose the margin. Visits stand evenly in their windows.
 *
 * @throws PlanningError `not-possible` without windows and without a first day; `out-of-range`
 * @example
 * const question = { firstDay: '2026-03-02', visitsBefore: 4, visitsAfter: 4, margin: 2, unit: '% by mass', better: 'lower' };
 * trialCalendar(question).after // { from: '2027-03-02', to: '2027-06-01' }
 */
export function trialCalendar(question: CalendarQuestion): TrialCalendar {
  const { visitsBefore, visitsAfter, windows, firstDay } = question;
  const wait = waitOf(question);
  const wait_d = wait.kind === 'computed' ? wait.wait.wait_d : 0;
  const { before, after } = windows ?? windowsFrom(firstDay, wait_d);
  const treatment = addDays(before.to, Math.min(toTreatment_d, Math.max(1, daysBetween(before.to, after.from) - 1)));
  const days = [
    ...visitDays(before, visitsBefore).map((day) => ({ day, window: 'before' as const })),
    ...visitDays(after, visitsAfter).map((day) => ({ day, window: 'after' as const })),
  ];
  const visits = days.map((visit, at) => ({ number: at + 1, ...visit }));
  const length_d = daysBetween(visits[0]?.day ?? before.from, visits.at(-1)?.day ?? after.to);
  const waited = daysBetween(treatment, after.from);
  return {
    ...{ before, after, treatment, visits, wait },
    months: Math.max(1, Math.ceil(length_d / daysInMonth)),
    departures: [
      ...(isInSameMonths(before, after) ? [] : [{ kind: 'other-months' as const }]),
      ...(waited < wait_d ? [{ kind: 'too-early' as const, days: waited, wait_d }] : []),
      ...(visitsBefore < fewestVisitsForRest ? [{ kind: 'few-before' as const, visits: visitsBefore }] : []),
    ],
  };
}

function windowsFrom(
  firstDay: string | undefined,
  wait_d: number,
): { readonly before: Window; readonly after: Window } {
  if (firstDay === undefined)
    throw new PlanningError(
      'trialCalendar',
      'not-possible',
      'needs windows, or the first day on which walls can be read',
    );
  const before = { from: firstDay, to: addDays(firstDay, windowLength_d) };
  for (let years = 1; years <= 50; years++) {
    const after = { from: yearsLater(before.from, years, 'before'), to: yearsLater(before.to, years, 'before') };
    if (daysBetween(addDays(before.to, toTreatment_d), after.from) >= wait_d) return { before, after };
  }
  throw new PlanningError(
    'trialCalendar',
    'out-of-range',
    `needs a wait below 50 years, got ${Math.round(wait_d)} days`,
  );
}

/** First and last day of the window, and evenly between. */
function visitDays({ from, to }: Window, count: number): readonly string[] {
  const length = daysBetween(from, to);
  if (count > length + 1)
    throw new PlanningError(
      'trialCalendar',
      'out-of-range',
      `needs at most ${length + 1} visits from ${from} to ${to}, got ${count}`,
    );
  if (count === 1) return [addDays(from, Math.round(length / 2))];
  return Array.from({ length: count }, (_, at) => addDays(from, Math.round((at * length) / (count - 1))));
}

/** Whether both begin in the same month of the year, and end in the same. */
function isInSameMonths(one: Window, other: Window): boolean {
  return isSameMonth(one.from, other.from) && isSameMonth(one.to, other.to);
}

function isSameMonth(one: string, other: string): boolean {
  return (monthNumber(one) - monthNumber(other)) % 12 === 0;
}

/** As the opinion counts it: statements lengthen no wait by being left out, and shorten it only up to what is assumed. */
function waitOf(question: CalendarQuestion): TrialCalendar['wait'] {
  const { margin, unit, better } = question;
  const scale = unitsPerPercentByMass(unit);
  if (better === 'higher') return { kind: 'none', reason: { code: 'higher-is-better' } };
  if (scale === undefined) return { kind: 'none', reason: { code: 'unit-without-mass', unit } };
  const of = {
    thickness_mm: Math.min(question.thickness_mm ?? assumedWall.thickness_mm, assumedWall.thickness_mm),
    density_kg_m3: Math.min(question.dryDensity_kg_m3 ?? assumedWall.density_kg_m3, assumedWall.density_kg_m3),
    pressure_pa: Math.max(question.pressure_pa ?? winterPressure_pa, winterPressure_pa),
  };
  const air = { faces: assumedWall.faces, transfer_kg_m2_s_pa: moistureTransfer_kg_m2_s_pa.indoors };
  return { kind: 'computed', wait: { ...waitForMargin({ margin_pp: margin / scale, ...of, ...air }), ...of } };
}
