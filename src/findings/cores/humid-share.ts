import type { HygroscopicFacts } from './cores-part.js';

/** Share of the moisture before the treatment that humid air alone would give: over arms and heights, each wall once a height. */
export function humidShare(facts: HygroscopicFacts | undefined): { readonly hygroscopicShare?: number } {
  const heights = (facts?.profiles ?? []).flatMap((profile) => (profile.window === 'before' ? profile.heights : []));
  const sum = (of: (height: (typeof heights)[number]) => number) =>
    heights.reduce((all, height) => all + height.walls * of(height), 0);
  const total = sum(({ hygroscopic_pct, excess_pct }) => hygroscopic_pct + excess_pct);
  return total > 0 ? { hygroscopicShare: sum(({ hygroscopic_pct }) => hygroscopic_pct) / total } : {};
}
