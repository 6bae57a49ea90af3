import { mean } from '../statistics/index.js';
import type { StationChange } from './wall-change.js';

/** What a wall's stations say of its change. */
export interface ComparedStations {
  /** `renamed`: no station has both values, and the wall's means over its stations are compared instead. */
  readonly places: 'same' | 'renamed';
  /** The stations that enter. */
  readonly stations: readonly StationChange[];
  /** One for each station with both values; of places named anew one for the wall; of after values alone one a station. */
  readonly parts: readonly ComparedPart[];
}

interface ComparedPart {
  /** Absent where after values alone are compared. */
  readonly before?: number;
  readonly after: number;
  /** After minus before; the after value itself where `before` is absent. */
  readonly change: number;
}

/**
 * What can be compared of one wall: its stations with a before and an after value; where none has both, as when places were
 * named anew, the mean of its after stations less the mean of its before stations. Undefined without values in both windows,
 * unless the trial compares after values alone.
 */
export function comparedStations(own: readonly StationChange[], isAfterAlone: boolean): ComparedStations | undefined {
  const complete: StationChange[] = [];
  const parts: ComparedPart[] = [];
  for (const station of own) {
    const { before, after } = station;
    if (before === undefined || after === undefined) continue;
    complete.push(station);
    parts.push({ before, after, change: after - before });
  }
  if (complete.length > 0) return { places: 'same', stations: complete, parts };
  const befores = own.flatMap(({ before }) => before ?? []);
  const late = own.filter(({ after }) => after !== undefined);
  const afters = late.flatMap(({ after }) => after ?? []);
  if (afters.length === 0) return undefined;
  if (befores.length > 0) {
    const [before, after] = [mean(befores), mean(afters)];
    return { places: 'renamed', stations: own, parts: [{ before, after, change: after - before }] };
  }
  if (!isAfterAlone) return undefined;
  return { places: 'same', stations: late, parts: afters.map((after) => ({ after, change: after })) };
}
