import type { Opinion } from '../../opinion/opinion.js';
import { daysInMonth } from '../../plain/calendar.js';
import { daysBetween } from '../../plain/days.js';
import { unlessRefused } from '../../plain/unless-refused.js';
import type { Trial } from '../../trial/index.js';
import { isPlanningError } from '../planning-error.js';
import { costOf } from '../walls-needed/design-table.js';
import { type PilotSpreads, pilotSpreads } from '../walls-needed/pilot-spreads.js';
import { plannedChances, type UncertainComparison } from '../walls-needed/planned-chances.js';
import type { PlannedDesign } from '../walls-needed/planned-design.js';
import { type WallsNeeded, wallsNeeded } from '../walls-needed/walls-needed.js';

/** The trial that would settle what an opinion leaves open, from the spreads of its own walls; or why these say nothing of it. */
export type NextTrial =
  | {
      readonly kind: 'planned';
      readonly design: NextDesign['kind'];
      /** The true effect that it is to call worthwhile: twice the margin. */
      readonly effect: number;
      readonly margin: number;
      /** From the first reading to the last, by the trial’s own windows, and longer where it was read too early. */
      readonly months: number;
      /** Walls with a change, from which the spreads come. */
      readonly walls: number;
      /** Read as in this trial, and with twice the visits. */
      readonly ways: readonly NextWay[];
    }
  | {
      readonly kind: 'not-planned';
      readonly reason: 'no-margin' | 'no-windows' | 'units-not-walls' | 'no-two-walls-alike' | 'no-spread';
    };

type NextDesign = Extract<PlannedDesign, { kind: 'complete' | 'pairs' }>;

/** How often walls are read, and how many of them it takes. */
export interface NextWay {
  readonly stations: number;
  readonly visitsBefore: number;
  readonly visitsAfter: number;
  readonly sizes: readonly NextSize[];
}

export interface NextSize {
  /** Of `worthwhile` where the effect is as large. */
  readonly chance: number;
  readonly needed: WallsNeeded;
  /** Of a verdict that denies a worthwhile effect where there is none. */
  readonly denied: number;
  /** By the costs that the plan states. */
  readonly cost?: number;
}

const chances = [0.8, 0.9] as const;

/**
 * The next trial, for an opinion that is open: `undecided`, `some-effect`, `not-answerable`, or on evidence that is `shaky` or `none`. Walls are
 * randomised, in pairs where this trial had them, and scatter as its walls did, with the uncertainty of so few.
 *
 * @returns nothing where the opinion leaves nothing open
 * @example nextTrial(trial, opinion).design // 'complete'
 */
export function nextTrial(trial: Trial, opinion: Opinion): NextTrial | undefined {
  if (!isOpen(opinion)) return undefined;
  const { margin, windows, confidence, planning } = trial.protocol;
  if (margin === undefined) return { kind: 'not-planned', reason: 'no-margin' };
  if (windows === undefined) return { kind: 'not-planned', reason: 'no-windows' };
  // The spreads are those of walls: what houses, or stretches of one wall, have in common is not in them.
  if (opinion.units.kind !== 'wall') return { kind: 'not-planned', reason: 'units-not-walls' };
  const pilot = pilotIfAny(trial);
  if (pilot === undefined) return { kind: 'not-planned', reason: 'no-two-walls-alike' };
  if (!(pilot.uncertainty.variance > 0)) return { kind: 'not-planned', reason: 'no-spread' };
  const design = designLike(opinion);
  const effect = 2 * margin;
  const months = Math.ceil((daysBetween(windows.before.from, windows.after.to) + daysTooEarly(opinion)) / daysInMonth);
  const comparison: UncertainComparison = {
    ...{ design, spreads: pilot.spreads, sampling: pilot.sampling, dropOut: 0, level: confidence },
    uncertainty: pilot.uncertainty,
  };
  const ways = [1, 2].map((times): NextWay => {
    const { stations, visitsBefore, visitsAfter } = pilot.sampling;
    const sampling = { stations, visitsBefore: times * visitsBefore, visitsAfter: times * visitsAfter };
    const sizes = chances.map((chance): NextSize => {
      const needed = wallsNeeded({ ...comparison, sampling }, { effect, margin, chance });
      if (needed.kind === 'too-many') return { chance, needed, denied: 0 };
      const [ifNothing] = plannedChances({ ...comparison, sampling, design: needed.design }, [0], margin);
      const denied =
        (ifNothing?.['no-worthwhile-effect'] ?? 0) +
        (ifNothing?.['smaller-than-worthwhile'] ?? 0) +
        (ifNothing?.harmful ?? 0);
      const { costs } = planning ?? {};
      return {
        ...{ chance, needed, denied },
        ...(costs === undefined ? {} : { cost: costOf(costs, needed.walls, sampling, months) }),
      };
    });
    return { ...sampling, sizes };
  });
  return { kind: 'planned', design: design.kind, effect, margin, months, walls: pilot.count, ways };
}

function isOpen({ verdict }: Opinion): boolean {
  return (
    verdict.code === 'undecided' ||
    verdict.code === 'some-effect' ||
    verdict.code === 'not-answerable' ||
    verdict.evidence === 'shaky' ||
    verdict.evidence === 'none'
  );
}

function pilotIfAny(trial: Trial): PilotSpreads | undefined {
  return unlessRefused(isPlanningError, () => {
    // Few visits say nothing of how much successive ones resemble each other.
    return pilotSpreads(trial, trial.protocol.planning?.autocorrelation ?? 0);
  });
}

/** In pairs where this trial was; else drawn one by one, with arms of one size. */
function designLike({ primary }: Opinion): NextDesign {
  const isPaired = primary.kind === 'estimated' && primary.method === 'paired-blocks';
  return isPaired ? { kind: 'pairs', pairs: 1 } : { kind: 'complete', treated: 1, untreated: 1 };
}

function daysTooEarly({ drying }: Opinion): number {
  const worst = drying?.wait?.worst;
  return worst === undefined ? 0 : Math.max(0, worst.wait.wait_d - worst.days);
}
