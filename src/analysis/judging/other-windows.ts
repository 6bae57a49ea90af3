import type { MoistureReading } from '../../moisture/index.js';
import { isInWindow, type Trial, type Window, type Windows } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { answerFromReadings, type Named } from './answer-from-readings.js';
import { addDays, daysBetween } from './days.js';

interface WindowChoice extends Named {
  readonly windows: Windows;
}

/**
 * The primary answer in windows narrowed, halved, or a month earlier or later. A month is tried only where it changes which
 * readings are used, and a before window is never moved towards the treatment.
 *
 * @example withOtherWindows(trial, outcomeReadings).length // 3 where no reading lies outside the windows
 */
export function withOtherWindows(trial: Trial, readings: readonly MoistureReading[]): readonly Answer[] {
  const days = [...new Set(readings.map(({ day }) => day))];
  return otherWindows(trial, days).map(({ id, label, windows }) =>
    answerFromReadings({ ...trial, protocol: { ...trial.protocol, windows } }, readings, { id, label }),
  );
}

/** The windows that are tried, for readings taken on these days. */
export function otherWindows(trial: Trial, days: readonly string[]): readonly WindowChoice[] {
  const { windows } = trial.protocol;
  if (windows === undefined) return [];
  const both = (change: (window: Window) => Window): Windows => ({
    before: change(windows.before),
    after: change(windows.after),
  });
  const { before, after } = windows;
  const moved: readonly WindowChoice[] = [
    choice('before-earlier', 'Before window a month earlier', { before: shifted(before, -MONTH), after }),
    choice('after-earlier', 'After window a month earlier', { before, after: shifted(after, -MONTH) }),
    choice('after-later', 'After window a month later', { before, after: shifted(after, MONTH) }),
  ];
  const isOther = (tried: Windows) =>
    days.some((day) => isInWindow(day, tried.before) !== isInWindow(day, before)) ||
    days.some((day) => isInWindow(day, tried.after) !== isInWindow(day, after));
  // An after window that reached back into the before window, or before the treatment, would answer another question.
  const treatedOn =
    trial.walls
      .flatMap((wall) => wall.treatedOn ?? [])
      .sort()
      .at(-1) ?? before.to;
  const isAfter = (tried: Windows) => tried.after.from > before.to && tried.after.from >= treatedOn;
  return [
    choice(
      'windows-narrowed',
      'Windows a quarter shorter at both ends',
      both((window) => part(window, 0.25, 0.75)),
    ),
    choice(
      'windows-first-half',
      'First half of both windows',
      both((window) => part(window, 0, 0.5)),
    ),
    choice(
      'windows-second-half',
      'Second half of both windows',
      both((window) => part(window, 0.5, 1)),
    ),
    ...moved.filter((one) => isOther(one.windows) && isAfter(one.windows)),
  ];
}

function choice(id: string, label: string, windows: Windows): WindowChoice {
  return { id, label, windows };
}

const MONTH = 30;

function part({ from, to }: Window, start: number, end: number): Window {
  const days = daysBetween(from, to);
  return { from: addDays(from, Math.round(days * start)), to: addDays(from, Math.round(days * end)) };
}

function shifted({ from, to }: Window, days: number): Window {
  return { from: addDays(from, days), to: addDays(to, days) };
}
