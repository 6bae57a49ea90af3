import type { LockedWall, Trial, Wall } from '../../trial/index.js';
import { planJson } from './plan-json.js';
import { lockFormat, sealOfPlan } from './seal-of-plan.js';
import { withSealedSeed } from './sealed-seed.js';

/** When and by what a plan is sealed. */
export interface Sealing {
  /** ISO date; the library looks at no clock of its own. */
  readonly lockedOn: string;
  /** Of the program. */
  readonly version: string;
}

/** A sealed plan, to be written as it is. */
export interface SealedPlan {
  readonly sha256: string;
  /** The text of `lock.json`. */
  readonly text: string;
}

/**
 * Seals a plan: what was planned and which walls stand in which arm, with the day, whole but for the seed of the allocation, of which a
 * digest stands there, and the SHA-256 of its canonical form.
 *
 * @example sealedPlan(trial, { lockedOn: '2024-02-01', version: '1.0.0' }).sha256.length // 64
 */
export function sealedPlan({ protocol, walls }: Pick<Trial, 'protocol' | 'walls'>, sealing: Sealing): SealedPlan {
  const { lockedOn, version } = sealing;
  const content = {
    format: lockFormat,
    lockedOn,
    version,
    plan: planJson(withSealedSeed(protocol)),
    walls: walls.map(lockedWall),
  };
  const sha256 = sealOfPlan(content);
  return { sha256, text: `${JSON.stringify({ ...content, sha256 }, null, 2)}\n` };
}

function lockedWall({ wall, arm, block, site, windows }: Wall): LockedWall {
  return {
    ...{ wall, arm },
    ...(block === undefined ? {} : { block }),
    ...(site === undefined ? {} : { site }),
    ...(windows === undefined ? {} : { windows }),
  };
}
