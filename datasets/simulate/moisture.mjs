import { monthlyValue, ramp } from './calendar.mjs';

/** Brick, in per cent by mass: dry and saturated. Common practice, no source. */
const driest = 0.4;
const wettest = 15;

/**
 * The true moisture of a station on a day, in per cent by mass: its lasting place (wall and station), the season, and
 * what comes in gradually after the treatment day: what all walls share, what the wall has of its own, and, on treated
 * walls only, the effect planted at that height. A trial that follows a course of its own over time brings it as
 * `truth.course`.
 */
export function trueMoisture(wall, station, day, truth) {
  if (truth.course !== undefined)
    return wall.level + station.offset + monthlyValue(truth.season, day) + truth.course(wall, day);
  const arrived = ramp(truth.from, truth.overDays, day);
  const effect = wall.arm === truth.treatedArm ? truth.effect[station.height] : 0;
  const later = truth.sharedChange + wall.drift + effect;
  return wall.level + station.offset + monthlyValue(truth.season, day) + arrived * later;
}

/** Brick can be neither drier nor wetter than its limits. */
export function withinBrick(moisture) {
  return Math.min(wettest, Math.max(driest, moisture));
}
