import { dayOfNumber } from '../../plain/days.js';
import type { LogGaps, LogJumps, SensorDay, SensorRecord, StuckRuns } from '../../trial/index.js';
import { addExactly } from './exact-sum.js';
import type { Jump, Run, SensorTrack } from './sensor-track.js';

/** A jump is large beyond this many typical steps: noise alone does not come near it. */
const largeJump = 10;
/** A spacing is a gap beyond this many intervals. */
const gapFrom = 1.5;
/** A run of equal values is stuck from this many times the length of the sensor's other runs. */
const stuckFrom = 5;

/**
 * Tells what one sensor's track comes to, now that its interval and its typical step are known. Spikes and stuck
 * values are taken out of the daily means; steps stay in, for a wall may well have made them.
 */
export function sensorRecord(sensor: string, track: SensorTrack): Omit<SensorRecord, 'drift'> {
  const interval_s = medianSpacing(track.spacings);
  const { spikes, steps } = sortJumps(track, interval_s);
  const stuck = track.runs.filter((run) => isStuck(run, track));
  for (const { day, to } of spikes) takeOut(day, to, 1);
  for (const { value, parts } of stuck) for (const { day, readings } of parts) takeOut(day, value, readings);
  return {
    sensor,
    readings: track.readings,
    interval_s,
    days: daysOf(track, interval_s),
    gaps: gapsOf(track, interval_s),
    stuck: stuckRuns(stuck),
    spikes: jumpsOf(spikes),
    steps: jumpsOf(steps),
    clockChanges: track.clockChanges.map(dayOfNumber),
  };
}

function medianSpacing(spacings: ReadonlyMap<number, number>): number {
  const sorted = [...spacings].sort(([one], [other]) => one - other);
  const total = sorted.reduce((sum, [, count]) => sum + count, 0);
  let below = 0;
  for (const [seconds, count] of sorted) {
    below += count;
    if (2 * below >= total) return seconds;
  }
  return 0;
}

/**
 * A spike goes back at the next reading, most of the way; a step does not. The way back is no jump of its own, and jumps
 * the same way in a row, as where water arrives, are one step.
 */
function sortJumps({ jumps, typical }: SensorTrack, interval_s: number): { spikes: Jump[]; steps: Jump[] } {
  const large = largeJump * typical.median();
  const longest = gapFrom * interval_s;
  const spikes: Jump[] = [];
  const steps: Jump[] = [];
  for (const jump of jumps) {
    const { index, from, to, next, spacing_s } = jump;
    if (Math.abs(to - from) <= large || spacing_s > longest) continue;
    if (spikes.at(-1)?.index === index - 1) continue;
    const back = next === undefined || next.spacing_s > longest ? 0 : next.value - to;
    const goesBack =
      Math.sign(back) === -Math.sign(to - from) &&
      Math.abs(back) > large &&
      Math.abs(to - from + back) <= Math.min(Math.abs(back), Math.abs(to - from)) / 2;
    if (goesBack) spikes.push(jump);
    else addStep(steps, jump);
  }
  return { spikes, steps };
}

function addStep(steps: Jump[], jump: Jump): void {
  const before = steps.at(-1);
  const goesOn =
    before?.index === jump.index - 1 && Math.sign(before.to - before.from) === Math.sign(jump.to - jump.from);
  if (goesOn) steps[steps.length - 1] = { ...jump, from: before.from };
  else steps.push(jump);
}

function isStuck(run: Run, { readings, runCount }: SensorTrack): boolean {
  if (runCount < 2) return true;
  const others = (readings - run.readings) / (runCount - 1);
  return run.readings >= stuckFrom * others;
}

function takeOut(day: SensorTrack['days'][number], value: number, readings: number): void {
  for (let count = 0; count < readings; count++) addExactly(day, -value);
  day.readings -= readings;
}

function daysOf({ days }: SensorTrack, interval_s: number): SensorDay[] {
  const expected = Math.max(1, interval_s === 0 ? 1 : 86_400 / interval_s);
  return days
    .filter(({ readings }) => readings > 0)
    .map(({ day, high, low, readings, row }) => ({
      day: dayOfNumber(day),
      mean: (high + low) / readings,
      readings,
      coverage: Math.min(1, readings / expected),
      row,
    }));
}

function gapsOf({ spacings, longestSpacing }: SensorTrack, interval_s: number): LogGaps {
  let count = 0;
  let missing = 0;
  for (const [seconds, often] of spacings) {
    if (seconds <= gapFrom * interval_s) continue;
    count += often;
    missing += often * (Math.round(seconds / interval_s) - 1);
  }
  if (count === 0) return { count, missing, longest_s: 0 };
  return { count, missing, longest_s: longestSpacing.seconds, longestFrom: dayOfNumber(longestSpacing.from) };
}

function stuckRuns(runs: readonly Run[]): StuckRuns {
  const readings = runs.reduce((sum, run) => sum + run.readings, 0);
  const [longest] = runs.toSorted((one, other) => other.seconds - one.seconds);
  const from = longest?.parts[0]?.day.day;
  return {
    count: runs.length,
    readings,
    longest_s: longest?.seconds ?? 0,
    ...(from === undefined ? {} : { longestFrom: dayOfNumber(from) }),
  };
}

function jumpsOf(jumps: readonly Jump[]): LogJumps {
  const [largest] = jumps.toSorted((one, other) => Math.abs(other.to - other.from) - Math.abs(one.to - one.from));
  if (largest === undefined) return { count: 0 };
  return { count: jumps.length, largest: largest.to - largest.from, largestOn: dayOfNumber(largest.day.day) };
}
