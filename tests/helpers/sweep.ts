/** `npm run test:whole` runs every long sweep whole; `npm test` keeps a sample of each, the same one every time. */
export const isWholeSweep = process.env.FAIRWALL_SWEEP === 'whole';

/** All of a long list where sweeps are whole; else those of its sample. */
export function swept<Item>(items: readonly Item[], isInSample: (item: Item, at: number) => boolean): readonly Item[] {
  return isWholeSweep ? items : items.filter(isInSample);
}

/** How often, or out of how many: the first where sweeps are whole. */
export function ofSweep(whole: number, inSample: number): number {
  return isWholeSweep ? whole : inSample;
}
