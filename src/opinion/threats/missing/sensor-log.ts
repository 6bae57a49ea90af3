import type { Side } from '../../../analysis/index.js';
import { limits } from '../../../findings/limits.js';
import { spanOfLog, usedDays } from '../../../findings/sensor-log/days-of-log.js';
import { sensorPlaces } from '../../../findings/sensor-log/sensor-places.js';
import { everyDay } from '../../../plain/days.js';
import { type SensorLog, type Trial, windowSorter, windowsOf } from '../../../trial/index.js';
import { decimalsFor, formatSigned } from '../../../words/format-number.js';
import { countInWords, listInWords, shareInWords } from '../../../words/quantity.js';
import { found, notFound, type Search } from '../threat.js';

/** Days on which sensors should have read and gave nothing that counts, many of them or many more in one arm. */
export const sensorDaysMissing: Search = {
  code: 'sensor-days-missing',
  domain: 'missing-data',
  name: 'Sensor days lost',
  lookedFor: 'embedded sensors gave no mean on many days, or on more days in one arm',
  direction: 'either way',
  remedy:
    'Look at the log every week while it grows, keep spare sensors in the walls, and note when and why one failed.',
  look: ({ facts: { trial, sides } }) => {
    const log = logOfOutcome(trial);
    const lost = log && lostOf(trial, log, sides);
    if (lost === undefined) return undefined;
    const { all, treated, untreated } = lost;
    const share = (one: Lost) => one.lost / one.expected;
    const isBoth = treated.expected > 0 && untreated.expected > 0;
    const isUnlike = isBoth && Math.abs(share(treated) - share(untreated)) > limits.sensorDaysLostApart.value;
    const bySide = isBoth ? ` (treated walls ${inPercent(treated)}, untreated ${inPercent(untreated)})` : '';
    const text = `Of the days on which the ${countInWords(lost.sensors, 'sensor')} should have read, ${inPercent(all)} gave no mean that counts${bySide}.`;
    const measure = { value: share(all), unit: 'share of sensor days' };
    if (share(all) <= limits.sensorDaysLost.value && !isUnlike) return notFound(text, { measure });
    return found(
      share(all) > limits.manySensorDaysLost.value || isUnlike ? 'serious' : 'minor',
      `${text} The sensors were silent, had gaps or were stuck. Sensors seldom fail by chance, so that the days left may not stand for those lost.`,
      { measure },
    );
  },
};

/** Sensors that creep away from the others look like walls that dry, or hide it. */
export const sensorsDrift: Search = {
  code: 'sensors-drift',
  domain: 'measurement',
  name: 'Sensors that drift',
  lookedFor: 'embedded sensors drift away from the others',
  direction: 'either way',
  remedy: 'Weigh cores from beside the sensors at the beginning and at the end, or read them against a reference.',
  look: ({ facts: { trial } }) => {
    const log = logOfOutcome(trial);
    if (log === undefined) return undefined;
    const drifting = log.sensors.flatMap(({ sensor, drift }) => (drift?.drifts === true ? [{ sensor, ...drift }] : []));
    const [fastest] = drifting.toSorted((one, other) => Math.abs(other.perDay) - Math.abs(one.perDay));
    if (fastest === undefined)
      return notFound(`None of the ${countInWords(log.sensors.length, 'sensor')} drifts away from the others.`);
    const isOne = drifting.length === 1;
    const { perDay } = fastest;
    const { unit } = trial.protocol.outcome;
    return found(
      drifting.length > limits.sensorsDrifting.value * log.sensors.length ? 'serious' : 'minor',
      `${countInWords(drifting.length, 'sensor')} of ${log.sensors.length} ${isOne ? 'drifts' : 'drift'} away from the others (${listInWords(drifting.map(({ sensor }) => sensor))}), ${isOne ? '' : 'the fastest '}by ${formatSigned(perDay, decimalsFor(perDay))} ${unit} a day. The log alone cannot distinguish a sensor that ages from a place that becomes wetter or drier than the rest.`,
      { measure: { value: perDay, unit: `${unit} a day` } },
    );
  },
};

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
  const windowOf = windowSorter(trial);
  const wallOf = new Map(sensorPlaces(trial).map(({ sensor, wall }) => [sensor, wall]));
  const sideOf = new Map([...wallOf].map(([sensor, wall]) => [sensor, sides.get(wall)]));
  const counts = (sensor: string, day: string) => {
    const wall = wallOf.get(sensor) ?? '';
    return windowsOf(trial, wall) === undefined || windowOf(wall, day) !== undefined;
  };
  const allDays = everyDay(span);
  const expectedOf = (sensor: string) => allDays.filter((day) => counts(sensor, day)).length;
  const compared = log.sensors.filter(({ sensor }) => sideOf.get(sensor) !== undefined);
  const sensors = compared.length === 0 ? log.sensors : compared;
  const sumOf = (own: typeof sensors): Lost => {
    const used = own.reduce((sum, one) => sum + usedDays(one).filter(({ day }) => counts(one.sensor, day)).length, 0);
    const expected = own.reduce((sum, { sensor }) => sum + expectedOf(sensor), 0);
    return { lost: expected - used, expected };
  };
  const on = (side: Side) => sumOf(sensors.filter(({ sensor }) => sideOf.get(sensor) === side));
  const all = sumOf(sensors);
  if (all.expected === 0) return undefined;
  return { all, treated: on('treated'), untreated: on('untreated'), sensors: sensors.length };
}

function inPercent({ lost, expected }: Lost): string {
  return shareInWords(lost, expected);
}
