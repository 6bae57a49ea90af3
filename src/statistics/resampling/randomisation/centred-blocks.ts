import { momentsOf } from '../../estimation/summaries/moments.js';
import type { TreatedAndUntreated } from './allocated-groups.js';
import { isInformative } from './allocation-design.js';

/** A block made ready for allocation: `chosen` of its units are drawn. */
export interface CentredBlock {
  /** Responses less the block's mean; negated where the untreated are the ones that are drawn. */
  readonly centred: Float64Array;
  /** 1 for a unit that was in the drawn group, 0 for the others. */
  readonly observed: Uint8Array;
  readonly chosen: number;
}

/** Blocks made ready, with what turns sums over drawn units into differences. */
export interface CentredBlocks {
  readonly blocks: readonly CentredBlock[];
  /** Sum over blocks of nt nc / (nt + nc): the difference is the sum of the drawn units' centred responses over this. */
  readonly weight: number;
  /** The overlap with the observed allocation that is expected by chance. */
  readonly expectedOverlap: number;
  /** The overlap of the observed allocation with itself. */
  readonly fullOverlap: number;
  /** Every block is split evenly, so that each allocation has a mirror. */
  readonly mirrored: boolean;
}

/**
 * The within-block difference, weighted by nt nc / (nt + nc), is a sum over treated units of the response less its block's
 * mean, over the sum of the weights. Drawing the smaller group of a block gives the same difference with the sign turned.
 */
export function centredBlocks(blocks: readonly TreatedAndUntreated[]): CentredBlocks {
  const informative = blocks.filter((block) =>
    isInformative({ treated: block.treated.length, untreated: block.untreated.length }),
  );
  const ready = informative.map(centredBlock);
  const total = (part: (block: CentredBlock) => number) => ready.reduce((sum, block) => sum + part(block), 0);
  return {
    blocks: ready,
    weight: total(({ chosen, centred }) => (chosen * (centred.length - chosen)) / centred.length),
    expectedOverlap: total(({ chosen, centred }) => chosen ** 2 / centred.length),
    fullOverlap: total(({ chosen }) => chosen),
    mirrored: ready.every(({ chosen, centred }) => 2 * chosen === centred.length),
  };
}

function centredBlock({ treated, untreated }: TreatedAndUntreated): CentredBlock {
  const drawTreated = treated.length <= untreated.length;
  const drawn = drawTreated ? treated : untreated;
  const left = drawTreated ? untreated : treated;
  const values = [...drawn, ...left];
  const { mean } = momentsOf(values);
  const sign = drawTreated ? 1 : -1;
  return {
    centred: Float64Array.from(values, (value) => sign * (value - mean)),
    observed: Uint8Array.from(values, (_, at) => (at < drawn.length ? 1 : 0)),
    chosen: drawn.length,
  };
}
