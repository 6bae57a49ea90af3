import { faultsOf } from '../../findings/sensor-log/days-of-log.js';
import type { Opinion } from '../../opinion/opinion.js';
import { leastCoverage, type SensorLog, type SensorRecord } from '../../trial/index.js';
import { decimalsFor, formatSigned } from '../../words/format-number.js';
import { countInWords, listInWords, numberInWords, shareInWords } from '../../words/quantity.js';
import { type Block, code, paragraph, quoted, type Section, type Table } from '../document.js';
import { dayText } from '../words/report-numbers.js';
import { sensorLogFigure } from './sensor-log-figure.js';

/** Sensors shown one by one; those with faults come first where there are more. */
const mostShown = 60;

/** What the log of the embedded sensors holds, what is wrong with it, and what of it became readings. */
export function sensorLogSection(opinion: Opinion): Section | undefined {
  const { sensorLog: log } = opinion;
  if (log === undefined) return undefined;
  return {
    id: 'sensor-log',
    heading: 'The sensors’ log',
    blocks: [
      holds(log),
      becomes(log),
      ...leftOut(log),
      paragraph(clockText(log)),
      ...sensorLogFigure(opinion, log),
      table(log),
      paragraph(meaning),
    ],
  };
}

function holds({ file, rows, sensors }: SensorLog): Block {
  const days = sensors.flatMap((sensor) => sensor.days.map(({ day }) => day)).sort();
  const silent = sensors.filter(({ readings }) => readings === 0).map(({ sensor }) => sensor);
  const span = days.length === 0 ? '' : `, from ${dayText(days[0] ?? '')} to ${dayText(days.at(-1) ?? '')}`;
  return paragraph(
    code(file),
    ` holds ${countInWords(rows, 'row')} of ${countInWords(sensors.length - silent.length, 'sensor')}${span}.`,
    ...(silent.length === 0 ? [] : [' Without a reading: ', quoted(listInWords(silent)), '.']),
  );
}

function becomes({ sensors }: SensorLog): Block {
  const days = sensors.flatMap((sensor) => sensor.days);
  const used = days.filter(({ coverage }) => coverage >= leastCoverage).length;
  return paragraph(
    `Each sensor’s mean of a day is one reading at its station: ${countInWords(used, 'daily mean')}. ${countInWords(days.length - used, 'day')} with less than ${shareInWords(leastCoverage, 1)} of the readings that the sensor’s rhythm leads to expect (common practice, no source) ${days.length - used === 1 ? 'was' : 'were'} excluded. Spikes and stuck values are in no mean; steps are, for a wall may have made them.`,
  );
}

function leftOut({ leftOut }: SensorLog): Block[] {
  const { missing, belowDetection, repeated, contradicting } = leftOut;
  const parts = [
    [missing, 'without a value'],
    [belowDetection, 'below the detection limit'],
    [repeated, 'there twice'],
    [contradicting, 'with a time that was there already and another value (the first counts)'],
  ] as const;
  const named = parts.filter(([count]) => count > 0).map(([count, what]) => `${countInWords(count, 'row')} ${what}`);
  return named.length === 0 ? [] : [paragraph(`Rows that enter no mean: ${listInWords(named)}.`)];
}

function clockText({ clock, order, sensors }: SensorLog): string {
  const changes = [...new Set(sensors.flatMap(({ clockChanges }) => clockChanges))].sort();
  const sorted = order === 'sorted' ? ' The rows did not stand in order of time and were sorted.' : '';
  if (clock === 'with-zone') return `Times carry a zone; a day is the day as the stamp writes it.${sorted}`;
  const jumps =
    changes.length === 0
      ? 'no sensor shows the hour that a wall clock repeats or skips when it is changed'
      : `the clock was changed by an hour on ${listInWords(changes.map(dayText))}, and no reading was lost by it`;
  return `Times carry no zone: ${jumps}.${sorted}`;
}

function table({ sensors }: SensorLog): Table {
  const shown =
    sensors.length <= mostShown ? sensors : sensors.toSorted((a, b) => faultsOf(b) - faultsOf(a)).slice(0, mostShown);
  const more = sensors.length - shown.length;
  return {
    kind: 'table',
    caption: `What was found in each sensor’s part${more === 0 ? '' : `; ${countInWords(more, 'sensor')} with fewer faults are in opinion.json alone`}`,
    columns: [
      { header: 'Sensor' },
      { header: 'Readings', look: 'number' },
      { header: 'Every', look: 'number' },
      { header: 'Days used', look: 'number' },
      { header: 'Gaps', look: 'number' },
      { header: 'Stuck', look: 'number' },
      { header: 'Spikes', look: 'number' },
      { header: 'Steps', look: 'number' },
      { header: 'Against the others' },
    ],
    rows: shown.map((sensor) => [
      [quoted(sensor.sensor)],
      [countOf(sensor.readings)],
      [intervalText(sensor.interval_s)],
      [`${sensor.days.filter(({ coverage }) => coverage >= leastCoverage).length} of ${sensor.days.length}`],
      [sensor.gaps.count === 0 ? '0' : `${sensor.gaps.count} (${countOf(sensor.gaps.missing)} missing)`],
      [countOf(sensor.stuck.readings)],
      [countOf(sensor.spikes.count)],
      [countOf(sensor.steps.count)],
      [driftText(sensor)],
    ]),
  };
}

const meaning =
  'Gap: more than one and a half times the usual spacing. Stuck: the same value for a day or longer, far longer than this sensor’s other runs; counted in readings. Spike: a jump of more than ten typical steps that goes back at the next reading; a step stays, and may be water that arrives. Against the others: whether the sensor’s daily means creep away from the other sensors’, slowly and steadily; a season, or water that arrives, does not count. These limits are common practice, no source. A log alone cannot tell a sensor that drifts from a place that becomes wetter or drier than the rest: weighed cores can.';

function driftText({ drift }: SensorRecord): string {
  if (drift === undefined) return 'not looked for';
  const { perDay, drifts } = drift;
  return drifts ? `drifts by ${formatSigned(perDay, decimalsFor(perDay))} a day` : 'keeps its place';
}

function countOf(count: number): string {
  return numberInWords(count, 0);
}

function intervalText(seconds: number): string {
  if (seconds === 0) return '–';
  if (seconds % 3600 === 0) return `${seconds / 3600}\u00a0h`;
  return seconds % 60 === 0 ? `${seconds / 60}\u00a0min` : `${seconds}\u00a0s`;
}
