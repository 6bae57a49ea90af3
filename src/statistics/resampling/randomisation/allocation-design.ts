/** How many units of a block are treated and how many are not. */
export interface BlockSizes {
  readonly treated: number;
  readonly untreated: number;
}

/**
 * How the treatment was allocated by chance, with the counts that were fixed beforehand.
 *
 * - `complete`: so many of all units;
 * - `blocked`: so many in each block (a matched pair is a block of one and one);
 * - `clustered`: whole clusters, so many of all clusters.
 */
export type AllocationDesign =
  | ({ readonly kind: 'complete' } & BlockSizes)
  | { readonly kind: 'blocked'; readonly blocks: readonly BlockSizes[] }
  | ({ readonly kind: 'clustered' } & BlockSizes);

/** The design as blocks: a design without blocks is one block. */
export function blockSizes(design: AllocationDesign): readonly BlockSizes[] {
  return design.kind === 'blocked' ? design.blocks : [design];
}

/** A block that lacks a group can be allocated in one way only, and says nothing. */
export function isInformative({ treated, untreated }: BlockSizes): boolean {
  return treated > 0 && untreated > 0;
}
