import { describeTimelineChart, type TimelineChartData, timelineChart } from '../../charts/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, paragraph, quoted, type Section } from '../document.js';
import { dayText } from '../words/report-numbers.js';
import { narrowWidth } from '../writers/narrow-width.js';

/** The trial's days: plan, windows, treatment, readings and diary, as a picture and a table of the diary. */
export function timelineSection(opinion: Opinion): Section {
  return {
    id: 'timeline',
    heading: 'What happened when',
    blocks: [windowsLine(opinion), ...figure(opinion), ...diary(opinion)],
  };
}

function windowsLine({ protocol }: Opinion): Block {
  const { windows, plannedOn } = protocol;
  const plan = plannedOn === undefined ? 'The plan bears no date.' : `The plan was fixed on ${dayText(plannedOn)}.`;
  if (windows === undefined) return paragraph(`${plan} No before and after windows were stated.`);
  const { before, after } = windows;
  return paragraph(
    `${plan} Before means ${dayText(before.from)} to ${dayText(before.to)}, after means ${dayText(after.from)} to ${dayText(after.to)}, first and last days included.`,
  );
}

function figure({ protocol, timeline }: Opinion): Block[] {
  const { windows, plannedOn } = protocol;
  const data: TimelineChartData = {
    title: 'The calendar of visits',
    ...(plannedOn === undefined ? {} : { plannedOn }),
    windows:
      windows === undefined
        ? []
        : [
            { label: 'before', ...windows.before },
            { label: 'after', ...windows.after },
          ],
    arms: timeline.calendar.map(({ arm, walls }, style) => ({ label: arm, style, walls })),
    events: timeline.events.map((event) => ({ day: event.day, label: `${event.kind}, ${event.walls}` })),
  };
  const days = [...data.windows, ...data.arms, ...data.events];
  if (days.length === 0 && plannedOn === undefined) return [];
  return [
    {
      kind: 'figure',
      caption: captionOf(timeline),
      charts: [
        {
          wide: timelineChart(data),
          narrow: timelineChart(data, { width: narrowWidth }),
          description: describeTimelineChart(data),
        },
      ],
    },
  ];
}

function captionOf({ readingDays, treatedDays }: Opinion['timeline']): string {
  const readings = readingDays.reduce((sum, each) => sum + each.readings, 0);
  const [first, last] = [treatedDays.at(0), treatedDays.at(-1)];
  const walls = treatedDays.reduce((sum, each) => sum + each.walls, 0);
  const treated =
    first === undefined || last === undefined
      ? 'No day of treatment was recorded.'
      : first === last
        ? `${countInWords(walls, 'wall')} treated on ${dayText(first.day)}.`
        : `${countInWords(walls, 'wall')} treated from ${dayText(first.day)} to ${dayText(last.day)}.`;
  return `Which walls were read when: ${countInWords(readings, 'reading')} of the outcome’s instrument on ${countInWords(readingDays.length, 'day')}. ${treated}`;
}

function diary({ timeline }: Opinion): Block[] {
  if (timeline.events.length === 0) return [paragraph('The diary holds no event.')];
  return [
    {
      kind: 'table',
      caption: 'The diary: what could have moved the moisture for another reason',
      columns: [
        { header: 'No.', look: 'number' },
        { header: 'Day', look: 'whole' },
        { header: 'Kind' },
        { header: 'Walls' },
        { header: 'Note', look: 'prose' },
      ],
      rows: timeline.events.map((event, index) => [
        [`${index + 1}`],
        [dayText(event.day)],
        [event.kind],
        [quoted(event.walls)],
        [quoted(event.note)],
      ]),
    },
  ];
}
