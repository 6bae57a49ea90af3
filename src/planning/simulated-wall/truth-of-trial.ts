import type { ContentsAtVisits } from './course-of-wall.js';
import type { FollowedTrial, Visits } from './followed-trial.js';

/** What is true of one wall: its mean change over stations and visits, without errors of reading. */
export interface TrueChange {
  readonly wall: string;
  readonly isTreated: boolean;
  readonly change: number;
  /** As it would have been without the treatment; the same for an untreated wall. */
  readonly changeWithout: number;
}

/** The truth beside a simulated trial. */
export interface TruthOfTrial {
  /** What the treatment did to the treated walls, on average, in % by mass. */
  readonly effect: number;
  readonly walls: readonly TrueChange[];
}

/** The truth of a trial that was followed with it. */
export function truthOfTrial({ walls, visits }: Pick<FollowedTrial, 'walls' | 'visits'>): TruthOfTrial {
  const changes = walls.map(({ wall: { wall, isTreated }, recorded, without = recorded }) => ({
    ...{ wall, isTreated, change: changeOf(recorded, visits) },
    changeWithout: changeOf(without, visits),
  }));
  const effects = changes.flatMap(({ isTreated, change, changeWithout }) =>
    isTreated ? [change - changeWithout] : [],
  );
  return { effect: meanOf(effects), walls: changes };
}

function changeOf(contents: ContentsAtVisits, { before, after }: Visits): number {
  const over = (weeks: readonly number[]) => meanOf(weeks.map((week) => meanOf(contents.get(week) ?? [])));
  return over(after) - over(before);
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
