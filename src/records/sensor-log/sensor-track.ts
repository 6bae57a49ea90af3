import { msInDay } from '../../plain/days.js';
import { mayChangeClocks, msInHour } from './days.js';
import { addExactly, type ExactSum } from './exact-sum.js';
import { type TypicalStep, typicalStep } from './typical-step.js';

/** What one pass over a sensor's readings leaves: sums by day, spacings, and whatever may turn out to be a fault. */
export interface SensorTrack {
  readings: number;
  repeated: number;
  contradicting: number;
  readonly days: DaySum[];
  /** Seconds from reading to reading, and how often. */
  readonly spacings: Map<number, number>;
  /** The longest spacing, and the day on which it began. */
  longestSpacing: { seconds: number; from: number };
  readonly typical: TypicalStep;
  readonly jumps: Jump[];
  readonly runs: Run[];
  readonly clockChanges: number[];
  /** Runs of equal values, those of one reading among them. */
  runCount: number;
}

interface DaySum extends ExactSum {
  /** Days since 1970-01-01. */
  readonly day: number;
  readings: number;
  readonly row: number;
}

/** A step from one reading to the next that is large for what has been seen so far. */
export interface Jump {
  /** Which reading of the sensor it led to. */
  readonly index: number;
  readonly from: number;
  readonly to: number;
  readonly spacing_s: number;
  readonly day: DaySum;
  /** The reading that followed. */
  next?: { readonly value: number; readonly spacing_s: number };
}

/** A run of equal values of a day or more. */
export interface Run {
  readonly value: number;
  readonly readings: number;
  readonly seconds: number;
  /** Its readings in each day. */
  readonly parts: readonly { readonly day: DaySum; readonly readings: number }[];
}

/** Readings and hours from which a run of equal values may count as stuck. */
const shortestRun = { readings: 12, ms: msInDay };

/** In typical steps so far; far below what makes a spike in the end, as the typical step may yet shrink. */
const largeSoFar = 4;
const stepsBetweenLooks = 256;

export interface TrackedSensor {
  readonly track: SensorTrack;
  /**
   * Takes the next reading; `false` where it stands before the one that came last.
   *
   * @param instant milliseconds since 1970, in whatever zone, in which order is judged
   * @param local milliseconds since 1970 on the wall clock, which names the day
   */
  add(instant: number, local: number, value: number, row: number): boolean;
  /** To be called after the last reading. */
  close(): void;
}

/**
 * Follows one sensor through the log. Nothing is kept but sums, counts and candidates: the log may be of any length.
 *
 * @param clock without a zone, an hour that is repeated or skipped when clocks are changed is distinguished from disorder and gaps.
 */
export function trackSensor(clock: 'with-zone' | 'without-zone'): TrackedSensor {
  const track: SensorTrack = {
    readings: 0,
    repeated: 0,
    contradicting: 0,
    days: [],
    spacings: new Map(),
    longestSpacing: { seconds: 0, from: 0 },
    typical: typicalStep(),
    jumps: [],
    runs: [],
    clockChanges: [],
    runCount: 0,
  };
  // The reading before. Not one record: millions would be made.
  let lastTime = 0;
  let lastValue = 0;
  let lastSpacing = 0;
  let shift = 0;
  let today: DaySum | undefined;
  let todayAt = -1;
  let pending: Jump | undefined;
  let large = 0;
  let steps = 0;
  let runStart = 0;
  let runDayAt = 0;
  let runBefore = 0;
  let runReadings = 0;
  // Most spacings of a log are the same: a look into the map for each would take longer than all the rest.
  let usual = { spacing_s: -1, count: 0 };

  function dayOf(local: number, row: number): DaySum {
    const day = Math.floor(local / msInDay);
    if (today !== undefined && today.day === day) return today;
    todayAt = track.days.findLastIndex((each) => each.day <= day);
    const known = track.days[todayAt];
    if (known?.day === day) return known;
    const added = { day, high: 0, low: 0, readings: 0, row };
    todayAt = track.days.push(added) - 1;
    return added;
  }

  function noteSpacing(spacing: number): number {
    const seconds = Math.round(spacing / 1000);
    if (seconds === usual.spacing_s) usual.count++;
    else {
      flushUsual();
      usual = { spacing_s: seconds, count: 1 };
    }
    if (seconds > track.longestSpacing.seconds) {
      track.longestSpacing = { seconds, from: Math.floor((lastTime - shift) / msInDay) };
    }
    return seconds;
  }

  function flushUsual(): void {
    if (usual.count > 0) {
      track.spacings.set(usual.spacing_s, (track.spacings.get(usual.spacing_s) ?? 0) + usual.count);
    }
    usual.count = 0;
  }

  /** A wall clock set back repeats an hour, set forward it skips one; both in the rhythm of the readings. */
  function clockChange(spacing: number): number {
    const change = spacing + msInHour === lastSpacing ? msInHour : spacing - msInHour === lastSpacing ? -msInHour : 0;
    if (change === 0 || clock === 'with-zone' || lastSpacing > msInHour) return 0;
    return mayChangeClocks(lastTime - shift) ? change : 0;
  }

  function noteStep(step: number, value: number, spacing_s: number, day: DaySum): void {
    track.typical.add(step);
    if (steps++ % stepsBetweenLooks === 0) large = largeSoFar * track.typical.median();
    if (Math.abs(step) <= large && steps > stepsBetweenLooks) return;
    pending = { index: track.readings, from: lastValue, to: value, spacing_s, day };
    track.jumps.push(pending);
  }

  function closeRun(): void {
    track.runCount++;
    const length = lastTime - runStart;
    if (runReadings < shortestRun.readings || length < shortestRun.ms) return;
    const parts = track.days.slice(runDayAt).map((day, index) => ({
      day,
      readings: day.readings - (index === 0 ? runBefore : 0),
    }));
    track.runs.push({ value: lastValue, readings: runReadings, seconds: Math.round(length / 1000), parts });
  }

  return {
    track,
    add(instant, local, value, row) {
      let spacing = instant + shift - lastTime;
      const isFirst = track.readings === 0;
      if (!isFirst) {
        const change = clockChange(spacing);
        if (change !== 0) {
          shift += change;
          spacing += change;
          track.clockChanges.push(Math.floor(local / msInDay));
        } else if (spacing === 0) {
          if (value === lastValue) track.repeated++;
          else track.contradicting++;
          return true;
        } else if (spacing < 0) return false;
      }
      const spacing_s = isFirst ? 0 : noteSpacing(spacing);
      today = dayOf(local, row);
      if (pending !== undefined) {
        pending.next = { value, spacing_s };
        pending = undefined;
      }
      const time = instant + shift;
      if (isFirst || value !== lastValue) {
        if (!isFirst) {
          closeRun();
          noteStep(value - lastValue, value, spacing_s, today);
        }
        runStart = time;
        runDayAt = todayAt;
        runBefore = today.readings;
        runReadings = 0;
      }
      runReadings++;
      addExactly(today, value);
      today.readings++;
      track.readings++;
      lastTime = time;
      lastValue = value;
      lastSpacing = spacing;
      return true;
    },
    close() {
      flushUsual();
      if (track.readings > 0) closeRun();
    },
  };
}
