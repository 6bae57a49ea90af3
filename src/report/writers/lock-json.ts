import { reasonInWords } from '../../labels/index.js';
import type { LockPart, VerdictAsLocked } from '../../opinion/lock/lock-part.js';

/** The seal, what departs from it, and the verdict as locked, for `opinion.json`. */
export function lockJson({ lockedOn, version, sha256, departures, asLocked }: LockPart) {
  return {
    ...{ lockedOn, version, sha256 },
    departures: departures.map(({ part, key, wall, locked, now }) => ({
      ...{ part, key, wall: wall ?? null },
      ...{ locked: written(locked), now: written(now) },
    })),
    asLocked: asLockedJson(asLocked),
  };
}

/** A name, a number, or the JSON text of anything larger. */
function written(value: unknown): string | number | null {
  if (value === undefined) return null;
  return typeof value === 'string' || typeof value === 'number' ? value : JSON.stringify(value);
}

function asLockedJson(asLocked: VerdictAsLocked) {
  switch (asLocked.kind) {
    case 'the-same':
      return { same: true, code: null, evidence: null, estimate: null, interval: null, reason: null };
    case 'not-possible':
      return {
        same: false,
        code: null,
        evidence: null,
        estimate: null,
        interval: null,
        reason: reasonInWords(asLocked.reason),
      };
    case 'judged': {
      const { code, evidence, primary } = asLocked;
      const estimate = primary.kind === 'estimated' ? primary.estimate : undefined;
      return {
        ...{ same: false, code, evidence },
        estimate: estimate?.estimate ?? null,
        interval: estimate?.interval === undefined ? null : { ...estimate.interval },
        reason: primary.kind === 'estimated' ? null : reasonInWords(primary.reason),
      };
    }
  }
}
