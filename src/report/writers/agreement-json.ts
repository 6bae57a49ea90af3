import { labelOf } from '../../labels/index.js';
import type { Agreement } from '../../opinion/agreement-of-analyses.js';

/** What the primary interval says, and which other analyses would say something else; null where it has no interval. */
export function agreementJson(agreement: Agreement) {
  if (agreement.kind === 'no-primary') return null;
  const { code, others, apart } = agreement;
  return {
    ...{ code, others },
    apart: apart.map(({ estimate, code: own, because }) => ({
      ...{ id: estimate.id, label: labelOf(estimate), code: own },
      because: { ...because },
    })),
  };
}
