import type { Side } from '../../analysis/index.js';
import { isoDay } from '../../plain/days.js';
import { daySorter, type SaltSample, type Trial } from '../../trial/index.js';

/** A sample of a wall of the comparison, in a window of its wall. */
export interface PlacedSample {
  readonly sample: SaltSample;
  readonly arm: string;
  readonly side: Side;
  readonly window: 'before' | 'after';
}

/** The samples that count: those of the comparison’s walls inside a window, on the right side of the treatment. */
export function placedSamples(
  trial: Pick<Trial, 'salts' | 'walls' | 'protocol'>,
  sides: ReadonlyMap<string, Side>,
): readonly PlacedSample[] {
  const armOf = new Map(trial.walls.map(({ wall, arm }) => [wall, arm]));
  const sorted = daySorter(trial);
  return (trial.salts ?? []).flatMap((sample): PlacedSample[] => {
    const window = sorted(sample.wall, isoDay(sample.date));
    const [arm, side] = [armOf.get(sample.wall), sides.get(sample.wall)];
    if (arm === undefined || side === undefined || (window !== 'before' && window !== 'after')) return [];
    return [{ sample, arm, side, window }];
  });
}

/** Height and depth, as written. */
export function placeOf({ sample: { height_mm, depth_mm } }: PlacedSample): string {
  return `${height_mm ?? ''} ${depth_mm ?? ''}`;
}
