import type { NextTrial } from '../../planning/index.js';

/** The trial that would settle what this one leaves open, for `opinion.json`. */
export function nextTrialJson(next: NextTrial) {
  if (next.kind === 'not-planned') return { kind: next.kind, reason: next.reason };
  const { kind, design, effect, margin, months, walls, ways } = next;
  return {
    ...{ kind, design, effect, margin, months, walls },
    ways: ways.map(({ stations, visitsBefore, visitsAfter, sizes }) => ({
      ...{ stations, visitsBefore, visitsAfter },
      sizes: sizes.map(({ chance, needed, denied, cost }) => ({
        ...{ chance, walls: needed.kind === 'found' ? needed.walls : null, denied, cost: cost ?? null },
      })),
    })),
  };
}
