import { type CoreItem, coreItems, evidenceFrom, type Threat, type TrialVerdict } from '../opinion/index.js';

/** Whether the folder says an item of the core list. */
export type CoreStatement = { readonly item: CoreItem } & (
  | { readonly kind: 'stated' }
  /** `needs` is what the folder would have to say. */
  | { readonly kind: 'missing'; readonly needs: readonly string[] }
  /** Nothing that rests on it can be looked for in what was read so far. */
  | { readonly kind: 'not-yet' }
);

/** The core list, item by item, from the list of threats: an item is missing where its silence would weigh. */
export function coreStatements({ threats }: TrialVerdict): readonly CoreStatement[] {
  return (Object.keys(coreItems) as CoreItem[]).map((item): CoreStatement => {
    const resting = threats.filter(({ restsOn }) => restsOn.includes(item));
    if (resting.length === 0) return { item, kind: 'not-yet' };
    const needs = resting.filter(isSilent).flatMap((threat) => threat.needs ?? []);
    return needs.length === 0 ? { item, kind: 'stated' } : { item, kind: 'missing', needs: [...new Set(needs)] };
  });
}

/** How firm the evidence could be at best, from what the folder leaves unsaid alone and whatever was read. */
export function evidenceAtBest({ threats }: TrialVerdict) {
  return evidenceFrom(threats.filter(isSilent));
}

function isSilent({ finding, seriousness }: Threat): boolean {
  return finding === 'could-not-be-looked-for' && seriousness !== undefined;
}
