import type { MoistureReading } from '../../moisture/index.js';
import { isInWindow, type Trial, type Window, type Windows } from '../../trial/index.js';
import type { Answer } from '../answer.js';
import { answerFromReadings } from './answer-from-readings.js';
import { addDays, daysBetween } from './days.js';

type Choice = readonly [id: string, label: string, windows: Windows];

/**
 * The primary answer in windows narrowed, halved, or a month earlier or later. A month is tried only where it changes which
 * readings are used, and a before window is never moved towards the treatment.
 *
 * @example withOtherWindows(trial, outcomeReadings).length // 3 where no reading lies outside the windows
 */
export function withOtherWindows(trial: Trial, readings: readonly MoistureReading[]): readonly Answer[] {
  const { windows } = trial.protocol;
  if (windows === undefined) return [];
  const both = (change: (window: Window) => Window): Windows => ({
    before: change(windows.before),
    after: change(windows.after),
  });
  const { before, after } = windows;
  const moved: readonly Choice[] = [
    ['before-earlier', 'Before window a month earlier', { before: shifted(before, -MONTH), after }],
    ['after-earlier', 'After window a month earlier', { before, after: shifted(after, -MONTH) }],
    ['after-later', 'After window a month later', { before, after: shifted(after, MONTH) }],
  ];
  const days = [...new Set(readings.map(({ day }) => day))];
  const isOther = (choice: Windows) =>
    days.some((day) => isInWindow(day, choice.before) !== isInWindow(day, before)) ||
    days.some((day) => isInWindow(day, choice.after) !== isInWindow(day, after));
  // An after window that reached back into the before window, or before the treatment, would answer another question.
  const treatedOn =
    trial.walls
      .flatMap((wall) => wall.treatedOn ?? [])
      .sort()
      .at(-1) ?? before.to;
  const isAfter = (choice: Windows) => choice.after.from > before.to && choice.after.from >= treatedOn;
  const choices: readonly Choice[] = [
    ['windows-narrowed', 'Windows a quarter shorter at both ends', both((window) => part(window, 0.25, 0.75))],
    ['windows-first-half', 'First half of both windows', both((window) => part(window, 0, 0.5))],
    ['windows-second-half', 'Second half of both windows', both((window) => part(window, 0.5, 1))],
    ...moved.filter(([, , choice]) => isOther(choice) && isAfter(choice)),
  ];
  return choices.map(([id, label, changed]) =>
    answerFromReadings({ ...trial, protocol: { ...trial.protocol, windows: changed } }, readings, { id, label }),
  );
}

const MONTH = 30;

function part({ from, to }: Window, start: number, end: number): Window {
  const days = daysBetween(from, to);
  return { from: addDays(from, Math.round(days * start)), to: addDays(from, Math.round(days * end)) };
}

function shifted({ from, to }: Window, days: number): Window {
  return { from: addDays(from, days), to: addDays(to, days) };
}
