import { type Trial, windowsOf } from '../../trial/index.js';

/** Whether neither the plan nor any wall has windows, so that no reading is a before or an after reading. */
export function hasNoWindows(trial: Trial): boolean {
  return trial.walls.every(({ wall }) => windowsOf(trial, wall) === undefined);
}
