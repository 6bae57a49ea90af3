import type { Opinion } from '../../opinion/opinion.js';
import type { Section } from '../document.js';

/** The photographs that go with the opinion, in the order of `commission.json`. */
export function photographsSection({ commission }: Opinion): Section | undefined {
  if (commission === undefined || commission.photographs.length === 0) return undefined;
  return {
    id: 'photographs',
    heading: 'Photographs',
    blocks: commission.photographs.map(({ bytes, caption }) => ({ kind: 'photograph', bytes, caption })),
  };
}
