import type { MoistureReading } from '../../moisture/index.js';
import { addDays, daysBetween } from '../../plain/days.js';
import { isInWindow, type Trial, type Wall, type Window, type Windows } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { answerFromReadings } from './answer-from-readings.js';
import { groupsByWindows } from './groups-by-windows.js';

type Choice = readonly [id: string, change: (windows: Windows) => Windows];

const both =
  (change: (window: Window) => Window) =>
  ({ before, after }: Windows): Windows => ({ before: change(before), after: change(after) });

const parts: readonly Choice[] = [
  ['windows-narrowed', both((window) => part(window, 0.25, 0.75))],
  ['windows-first-half', both((window) => part(window, 0, 0.5))],
  ['windows-second-half', both((window) => part(window, 0.5, 1))],
];

const moves: readonly Choice[] = [
  ['before-earlier', ({ before, after }) => ({ before: shifted(before, -MONTH), after })],
  ['after-earlier', ({ before, after }) => ({ before, after: shifted(after, -MONTH) })],
  ['after-later', ({ before, after }) => ({ before, after: shifted(after, MONTH) })],
];

/**
 * The primary answer in windows narrowed, halved, or a month earlier or later, those of walls with windows of their own alike. A
 * month is tried only where it changes which readings are used, and a before window is never moved towards the treatment.
 *
 * @example withOtherWindows(trial, outcomeReadings).length // 3 where no reading lies outside the windows
 */
export function withOtherWindows(trial: Trial, readings: readonly MoistureReading[]): readonly Answer[] {
  const groups = groupsByWindows(trial).flatMap((group) => {
    const windows = group[0]?.windows ?? trial.protocol.windows;
    return windows === undefined ? [] : [{ windows, treatedOn: lastTreatment(group) ?? windows.before.to }];
  });
  if (groups.length === 0) return [];
  const days = [...new Set(readings.map(({ day }) => day))];
  const isOther = (change: Choice[1]) =>
    groups.some(({ windows }) => {
      const { before, after } = change(windows);
      return days.some(
        (day) =>
          isInWindow(day, before) !== isInWindow(day, windows.before) ||
          isInWindow(day, after) !== isInWindow(day, windows.after),
      );
    });
  // An after window that reached back into the before window, or before the treatment, would answer another question.
  const isAfter = (change: Choice[1]) =>
    groups.every(({ windows, treatedOn }) => {
      const { from } = change(windows).after;
      return from > windows.before.to && from >= treatedOn;
    });
  return [...parts, ...moves.filter(([, change]) => isOther(change) && isAfter(change))].map(([id, change]) =>
    answerFromReadings(withWindows(trial, change), readings, { id }),
  );
}

function lastTreatment(walls: readonly Wall[]): string | undefined {
  return walls
    .flatMap((wall) => wall.treatedOn ?? [])
    .sort()
    .at(-1);
}

function withWindows(trial: Trial, change: (windows: Windows) => Windows): Trial {
  const { windows, ...protocol } = trial.protocol;
  return {
    ...trial,
    protocol: { ...protocol, ...(windows === undefined ? {} : { windows: change(windows) }) },
    walls: trial.walls.map((wall) => (wall.windows === undefined ? wall : { ...wall, windows: change(wall.windows) })),
  };
}

const MONTH = 30;

function part({ from, to }: Window, start: number, end: number): Window {
  const days = daysBetween(from, to);
  return { from: addDays(from, Math.round(days * start)), to: addDays(from, Math.round(days * end)) };
}

function shifted({ from, to }: Window, days: number): Window {
  return { from: addDays(from, days), to: addDays(to, days) };
}
