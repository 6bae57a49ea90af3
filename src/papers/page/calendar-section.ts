import { fallingStageFactor } from '../../drying/index.js';
import { reasonInWords } from '../../labels/index.js';
import { type CalendarDeparture, fewestVisitsForRest } from '../../planning/calendar/trial-calendar.js';
import type { TrialPlan } from '../../planning/make-plan.js';
import { type Block, type Line, paragraph, type Section, strong } from '../../report/document.js';
import { countInWords, numberInWords } from '../../words/quantity.js';
import { statedDifference } from './plan-words.js';

/** When walls are read and treated, and why not sooner. */
export function calendarSection({ calendar, plan }: TrialPlan): Section {
  const { before, after, treatment, visits, months, wait, departures } = calendar;
  const sham = plan.arms.some(({ role }) => role === 'sham');
  const rows: readonly (readonly Line[])[] = [
    ...visits.map(({ number, day, window }) => ({ day, what: `visit ${number}`, window })),
    { day: treatment, what: sham ? 'treatment, and the sham on the same day' : 'treatment', window: '' },
  ]
    .toSorted((one, other) => (one.day < other.day ? -1 : 1))
    .map(({ day, what, window }) => [[day], [what], [window]]);
  const waited =
    wait.kind === 'none'
      ? `How long walls have to wait is not computed, because ${reasonInWords(wait.reason)}.`
      : `To lose ${statedDifference(plan.margin, plan.outcome.unit)}, walls of ${numberInWords(wait.wait.thickness_mm, 0)} mm and ${numberInWords(wait.wait.density_kg_m3, 0)} kg/m³ need ${numberInWords(wait.wait.least_d, 0)} days at the very least, and about ${numberInWords(wait.wait.wait_d, 0)} in all (${fallingStageFactor} times as long, our convention). That is in air with a vapour pressure difference of ${numberInWords(wait.wait.pressure_pa, 0)} Pa.`;
  return {
    id: 'calendar',
    heading: 'When',
    blocks: [
      paragraph(
        strong('Windows: '),
        `before from ${before.from} to ${before.to}, after from ${after.from} to ${after.to}; ${countInWords(months, 'month')} from the first visit to the last. Walls dry and get wet with the season: the same days of the year stand before and after, and all walls are read on one visit.`,
      ),
      paragraph(strong('The wait: '), waited),
      ...departures.map(departureBlock),
      {
        kind: 'table',
        caption: 'The calendar',
        columns: [{ header: 'Day', look: 'whole' }, { header: 'What' }, { header: 'Window' }],
        rows,
      },
    ],
  };
}

function departureBlock(departure: CalendarDeparture): Block {
  switch (departure.kind) {
    case 'other-months':
      return paragraph(
        strong('Other months. '),
        'The windows of the plan do not begin and end in the same months: the season alone then makes a change, and the arms may differ in it.',
      );
    case 'too-early':
      return paragraph(
        strong('Too early. '),
        `The after window of the plan begins ${numberInWords(departure.days, 0)} days after the treatment, before the wait of ${numberInWords(departure.wait_d, 0)} days is over.`,
      );
    case 'few-before':
      return paragraph(
        strong('Too few visits before. '),
        `With ${countInWords(departure.visits, 'visit')} before nothing shows whether the walls were at rest: it takes ${fewestVisitsForRest} or more.`,
      );
  }
}
