import type { Reason } from '../../analysis/index.js';
import { present } from '../../plain/present.js';
import type { LockedWall, Trial, Wall } from '../../trial/index.js';
import { sealsSites } from './departures-from-lock.js';

/** The trial by the plan that was sealed, or why the readings cannot be held against that plan. */
export type AsLocked =
  | { readonly kind: 'trial'; readonly trial: Trial }
  | { readonly kind: 'not-possible'; readonly reason: Reason };

/**
 * A trial by its plan as it was sealed: that plan, its walls in their arms, and of the readings those of these walls and of its
 * instruments. What was written down of a wall (its material, its treatment day) stays as it is.
 *
 * @example trialAsLocked({ ...trial, lock: { lockedOn: '2024-02-01', version: '1', sha256: '', protocol: trial.protocol, walls: trial.walls } })?.kind // 'trial'
 */
export function trialAsLocked(trial: Trial): AsLocked | undefined {
  const { lock } = trial;
  if (lock === undefined) return undefined;
  const { protocol } = lock;
  const reason = unlikeUnits(trial);
  if (reason !== undefined) return { kind: 'not-possible', reason };
  const hasSites = sealsSites(lock.walls);
  const locked = new Map(lock.walls.map((wall) => [wall.wall, wall]));
  const walls = trial.walls.flatMap((wall) => {
    const one = locked.get(wall.wall);
    return one === undefined ? [] : [wallAsLocked(wall, hasSites ? one : { ...one, ...siteOf(wall) })];
  });
  const instruments = new Set(protocol.instruments.map(({ instrument }) => instrument));
  const isOfPlan = ({ wall }: { readonly wall: string }) => locked.has(wall);
  const hasBalance = protocol.instruments.some(({ kind }) => kind === 'gravimetric');
  return {
    kind: 'trial',
    trial: {
      ...{ ...trial, protocol, walls },
      readings: trial.readings.filter((reading) => isOfPlan(reading) && instruments.has(reading.instrument)),
      cores: hasBalance ? trial.cores.filter(isOfPlan) : [],
      stations: trial.stations.filter(isOfPlan),
    },
  };
}

/** Readings bear the unit of the plan that they were read by. */
function unlikeUnits({ protocol, lock }: Trial): Reason | undefined {
  const [locked, now] = [lock?.protocol.outcome, protocol.outcome];
  if (locked === undefined || locked.instrument !== now.instrument || locked.unit === now.unit) return undefined;
  const kind = protocol.instruments.find(({ instrument }) => instrument === now.instrument)?.kind;
  if (kind === 'gravimetric' || kind === 'carbide') return undefined;
  return { code: 'sealed-in-other-unit', locked: locked.unit, now: now.unit, instrument: now.instrument };
}

function siteOf({ site }: Wall): Pick<Wall, 'site'> {
  return site === undefined ? {} : { site };
}

function wallAsLocked({ block: _, site: __, windows: ___, ...wall }: Wall, locked: LockedWall): Wall {
  const { arm, block, site, windows } = locked;
  return {
    ...{ ...wall, arm },
    ...present({ block, site, windows }),
  };
}
