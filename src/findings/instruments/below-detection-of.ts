import { comparisonSides, type Side } from '../../analysis/index.js';
import type { MoistureReading } from '../../moisture/index.js';
import { daySorter, type Trial } from '../../trial/index.js';
import { answerAsRead, changesBy } from './answers-of.js';
import { atExtremes, byLikelihood, byProductLimit, type CountedBelow, type WallInWindow } from './counted-below.js';
import type { AnswerResult, BelowDetection, Computed } from './instrument-facts.js';

/**
 * How the answer moves with the way in which readings below the detection limit are counted; nothing where there are none in the
 * windows. The walls stay the units: a reading below its limit counts with what the other readings of its wall and window make
 * expected below that limit, so that the mean of the wall is that of the method, and the comparison is then made as ever.
 *
 * @param unit of the readings
 */
export function belowDetectionOf(
  trial: Trial,
  readings: readonly MoistureReading[],
  instrument: string,
  unit: string,
): BelowDetection | undefined {
  const cells = cellsOf(trial, readings, instrument);
  const concerned = cells.filter(({ below }) => below.length > 0);
  if (concerned.length === 0) return undefined;
  const answer = (counted: CountedBelow): AnswerResult => {
    const inPlace = readings.map((reading): MoistureReading => {
      const value = counted.get(reading);
      return value === undefined ? reading : { ...reading, value: { kind: 'measured', value } };
    });
    return answerAsRead(trial, changesBy(trial, inPlace, instrument), unit).result;
  };
  const answered = (counted: Computed<CountedBelow>) => (counted.kind === 'computed' ? answer(counted.value) : counted);
  return {
    below: belowIn(concerned),
    readings: belowIn(cells) + cells.reduce((sum, { measured }) => sum + measured.length, 0),
    walls: new Set(concerned.map(({ wall }) => wall)).size,
    where: { treated: belowOn(concerned, 'treated'), untreated: belowOn(concerned, 'untreated') },
    leftOut: answer(new Map()),
    likelihood: answered(byLikelihood(cells)),
    productLimit: answered(byProductLimit(concerned)),
    bounds: between(answer(atExtremes(concerned, 'lower')), answer(atExtremes(concerned, 'upper'))),
  };
}

function cellsOf(trial: Trial, readings: readonly MoistureReading[], instrument: string): readonly WallInWindow[] {
  const sorted = daySorter(trial);
  const sides = comparisonSides(trial.protocol);
  const sideOfWall = new Map(trial.walls.map(({ wall, arm }) => [wall, sides.get(arm)]));
  const cells = new Map<string, WallInWindow>();
  for (const reading of readings) {
    const { wall, day, instrument: own, value } = reading;
    const side = sideOfWall.get(wall);
    if (own !== instrument || side === undefined || value.kind === 'missing') continue;
    const window = sorted(wall, day);
    if (window !== 'before' && window !== 'after') continue;
    const key = JSON.stringify([wall, window]);
    const cell = cells.get(key) ?? { wall, side, window, measured: [], below: [] };
    if (value.kind === 'measured') cell.measured.push(value.value);
    else cell.below.push({ reading, limit: value.limit });
    cells.set(key, cell);
  }
  return [...cells.values()];
}

function belowIn(cells: readonly WallInWindow[]): number {
  return cells.reduce((sum, { below }) => sum + below.length, 0);
}

function belowOn(cells: readonly WallInWindow[], side: Side) {
  const within = (window: WallInWindow['window']) =>
    belowIn(cells.filter((cell) => cell.side === side && cell.window === window));
  return { before: within('before'), after: within('after') };
}

function between(lower: AnswerResult, upper: AnswerResult): BelowDetection['bounds'] {
  if (lower.kind === 'not-computed') return lower;
  if (upper.kind === 'not-computed') return upper;
  return { kind: 'computed', value: { lower: lower.value.estimate, upper: upper.value.estimate } };
}
