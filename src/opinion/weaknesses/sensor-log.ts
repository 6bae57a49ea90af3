import type { Side } from '../../analysis/index.js';
import { decimalsFor, formatSigned } from '../../charts/format-number.js';
import { isInWindow, type SensorLog, type Trial } from '../../trial/index.js';
import type { Weakness } from '../opinion.js';
import { daysOfWindow, spanOfLog, usedDays } from '../sensor-log/days-of-log.js';
import { sensorPlaces } from '../sensor-log/sensor-places.js';
import { countInWords, listInWords, shareInWords } from '../words/quantity.js';
import type { Facts } from './facts.js';

/** Weaknesses of an outcome that embedded sensors log. Their limits are common practice, no source. */

const fewLost = 0.1;
const manyLost = 0.25;
const unlikeLost = 0.1;
const manyDrift = 0.2;

/** Days on which sensors should have read and gave nothing that counts, many of them or many more in one arm. */
export function sensorDaysMissing({ trial, sides }: Facts): Weakness | undefined {
  const log = logOfOutcome(trial);
  const lost = log && lostOf(trial, log, sides);
  if (lost === undefined) return undefined;
  const { all, treated, untreated } = lost;
  const share = (one: Lost) => one.lost / one.expected;
  const isUnlike =
    treated.expected > 0 && untreated.expected > 0 && Math.abs(share(treated) - share(untreated)) > unlikeLost;
  if (share(all) <= fewLost && !isUnlike) return undefined;
  const bySide =
    treated.expected === 0 || untreated.expected === 0
      ? ''
      : ` (treated walls ${inPercent(treated)}, untreated ${inPercent(untreated)})`;
  return {
    code: 'sensor-days-missing',
    seriousness: share(all) > manyLost || isUnlike ? 'serious' : 'minor',
    text: `Of the days on which the ${countInWords(lost.sensors, 'sensor')} should have read, ${inPercent(all)} gave no mean that counts${bySide}: the sensors were silent, had gaps or were stuck. Sensors seldom fail by chance, so that the days left may not stand for those lost.`,
    remedy:
      'Look at the log every week while it grows, keep spare sensors in the walls, and note when and why one failed.',
  };
}

/** Sensors that creep away from the others look like walls that dry, or hide it. */
export function sensorsDrift({ trial }: Facts): Weakness | undefined {
  const log = logOfOutcome(trial);
  if (log === undefined) return undefined;
  const drifting = log.sensors.flatMap(({ sensor, drift }) => (drift?.drifts === true ? [{ sensor, ...drift }] : []));
  const [fastest] = drifting.toSorted((one, other) => Math.abs(other.perDay) - Math.abs(one.perDay));
  if (fastest === undefined) return undefined;
  const isOne = drifting.length === 1;
  const { perDay } = fastest;
  return {
    code: 'sensors-drift',
    seriousness: drifting.length > manyDrift * log.sensors.length ? 'serious' : 'minor',
    text: `${countInWords(drifting.length, 'sensor')} of ${log.sensors.length} ${isOne ? 'creeps' : 'creep'} away from the others (${listInWords(drifting.map(({ sensor }) => sensor))}), ${isOne ? '' : 'the fastest '}by ${formatSigned(perDay, decimalsFor(perDay))} ${trial.protocol.outcome.unit} a day: the log alone cannot tell a sensor that ages from a place that becomes wetter or drier than the rest.`,
    remedy: 'Weigh cores from beside the sensors at the beginning and at the end, or read them against a reference.',
  };
}

/** The log, where the outcome is read from it. */
function logOfOutcome({ protocol, sensorLog }: Trial): SensorLog | undefined {
  const { instruments, outcome } = protocol;
  const own = instruments.find(({ instrument }) => instrument === outcome.instrument);
  return own?.kind === 'embedded-sensor' ? sensorLog : undefined;
}

interface Lost {
  readonly lost: number;
  readonly expected: number;
}

interface LostOfTrial {
  readonly all: Lost;
  readonly treated: Lost;
  readonly untreated: Lost;
  readonly sensors: number;
}

/** Of the sensors of compared walls (of all, where none is compared), on the days of the log that lie in a window (on all, without). */
function lostOf(trial: Trial, log: SensorLog, sides: ReadonlyMap<string, Side>): LostOfTrial | undefined {
  const span = spanOfLog(log);
  if (span === undefined) return undefined;
  const { windows } = trial.protocol;
  const counts = (day: string) =>
    windows === undefined || isInWindow(day, windows.before) || isInWindow(day, windows.after);
  const expected = daysOfWindow(span).filter(counts).length;
  const sideOf = new Map(sensorPlaces(trial).map(({ sensor, wall }) => [sensor, sides.get(wall)]));
  const compared = log.sensors.filter(({ sensor }) => sideOf.get(sensor) !== undefined);
  const sensors = compared.length === 0 ? log.sensors : compared;
  if (expected === 0 || sensors.length === 0) return undefined;
  const sumOf = (own: typeof sensors): Lost => {
    const used = own.reduce((sum, one) => sum + usedDays(one).filter(({ day }) => counts(day)).length, 0);
    return { lost: own.length * expected - used, expected: own.length * expected };
  };
  const on = (side: Side) => sumOf(sensors.filter(({ sensor }) => sideOf.get(sensor) === side));
  return { all: sumOf(sensors), treated: on('treated'), untreated: on('untreated'), sensors: sensors.length };
}

function inPercent({ lost, expected }: Lost): string {
  return shareInWords(lost, expected);
}
