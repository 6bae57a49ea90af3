import {
  countEvidence,
  countVerdicts,
  type EvidenceCounts,
  type VerdictCounts,
} from '../../../src/planning/error-rates/count-verdicts.js';
import { type RateDesign, rateDesigns, trueEffects } from '../../../src/planning/error-rates/rate-designs.js';
import { type SizedTreatment, treatmentForEffect } from '../../../src/planning/error-rates/treatment-for-effect.js';
import type { SimulatedDesign } from '../../../src/planning/simulated-wall/simulated-design.js';

/** Trials of the verdict word and of the evidence word, and those that a test makes again. */
export const TRIALS = 4_000;
export const EVIDENCE_TRIALS = 20;
export const FIRST = 5;

const SIZING = { searchTrials: 12, countTrials: 500, seed: 20261128 };

/** A population of walls with the effects that it is to have, sized once for all designs that draw from it. */
export interface SizeJob {
  readonly kind: 'size';
  readonly key: string;
  readonly design: string;
  readonly truth: number;
}

export interface CellJob {
  readonly kind: 'cell';
  readonly key: string;
  readonly design: string;
  readonly truth: number;
  readonly seed: number;
  readonly size?: SizedTreatment;
  readonly trials: number;
  readonly evidenceTrials: number;
}

export interface SizeDone extends SizedTreatment {
  readonly kind: 'size';
  readonly key: string;
}

export interface CellDone {
  readonly kind: 'cell';
  readonly key: string;
  readonly design: string;
  readonly truth: number;
  readonly seed: number;
  readonly margin: number;
  readonly treatment: SimulatedDesign['treatment'];
  readonly verdicts: VerdictCounts;
  readonly evidence: EvidenceCounts;
  readonly first: VerdictCounts;
}

export function designOf(id: string): RateDesign {
  const found = rateDesigns.find((one) => one.id === id);
  if (found === undefined) throw new RangeError(`there is no design ${id}`);
  return found;
}

/** What decides the mean effect of a treatment: of which walls, how they change, and when they are read. */
export function populationOf({ design }: RateDesign): string {
  const {
    treatmentSpread,
    ownChange,
    ownChangeShape,
    season,
    autocorrelation,
    heights_mm,
    visits,
    leaks,
    chloride_pct,
  } = design;
  return JSON.stringify({
    treatmentSpread,
    ownChange,
    ownChangeShape,
    season,
    autocorrelation,
    heights_mm,
    visits,
    leaks,
    chloride_pct,
  });
}

export function sizeKey(design: RateDesign, truth: number): string {
  return `${populationOf(design)} × ${truth}, ${JSON.stringify(SIZING)}`;
}

/** From its name, so that a design more or less moves no other. */
export function seedOf(design: string, truth: number): number {
  let hash = 2166136261;
  for (const letter of `${design} ${truth}`) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 16777619) >>> 0;
  return hash % 1_000_000_000;
}

export function sizeJobs(): readonly SizeJob[] {
  const jobs = new Map<string, SizeJob>();
  for (const design of rateDesigns)
    for (const truth of trueEffects) {
      if (truth === 0) continue;
      const key = sizeKey(design, truth);
      if (!jobs.has(key)) jobs.set(key, { kind: 'size', key, design: design.id, truth });
    }
  return [...jobs.values()];
}

export function size({ key, design, truth }: SizeJob): SizeDone {
  const { design: walls } = designOf(design);
  return { kind: 'size', key, ...treatmentForEffect(walls, truth * walls.margin, SIZING) };
}

export function cellJobs(
  sizes: ReadonlyMap<string, SizedTreatment>,
  { trials, evidenceTrials }: Pick<CellJob, 'trials' | 'evidenceTrials'>,
): readonly CellJob[] {
  return rateDesigns.flatMap((design) =>
    trueEffects.map((truth): CellJob => {
      const own = truth === 0 ? undefined : sizes.get(sizeKey(design, truth));
      const seed = seedOf(design.id, truth);
      const key = JSON.stringify([design.design, truth, seed, own?.treatment, own?.effect, trials, evidenceTrials]);
      return {
        ...{ kind: 'cell', key, design: design.id, truth, seed, trials, evidenceTrials },
        ...(own === undefined ? {} : { size: own }),
      };
    }),
  );
}

/** The design with the treatment and the margin that make its truth. */
export function designOfCell({
  design,
  truth,
  size: sized,
}: Pick<CellJob, 'design' | 'truth' | 'size'>): SimulatedDesign {
  const { design: walls } = designOf(design);
  if (sized === undefined) return { ...walls, treatment: { kind: 'nothing' } };
  return { ...walls, treatment: sized.treatment, margin: sized.effect / truth };
}

export function cell(job: CellJob): CellDone {
  const { key, design, truth, seed, size: sized, trials, evidenceTrials } = job;
  const walls = designOfCell(job);
  const effect = sized?.effect ?? 0;
  return {
    ...{ kind: 'cell', key, design, truth, seed, margin: walls.margin, treatment: walls.treatment },
    verdicts: countVerdicts(walls, effect, { seed, trials }),
    evidence: countEvidence(walls, { seed, trials: evidenceTrials }),
    first: countVerdicts(walls, effect, { seed, trials: FIRST }),
  };
}
