import { siteCautions } from '../../trial/site-cautions.js';
import { type Line, type Section, strong } from '../document.js';

const items: readonly Line[] = [
  ...siteCautions.map(({ lead, text }): Line => [strong(lead), ` ${text}`]),
  [
    strong('Relying on this opinion.'),
    ' It is computed from what was written into a folder; nobody looked at the walls for it. It is no survey, no certificate and no legal, structural or medical advice. Where it and local building rules, standards or a qualified person on site differ, follow them.',
  ],
  [
    strong('Using it against or for a product.'),
    ' What was not shown in this trial is not thereby shown to be worthless, and what was shown here is not thereby shown elsewhere. Quote the verdict together with its weaknesses, and say who paid for the trial.',
  ],
];

/** What every reader should know before acting on walls or on words. */
export function cautionsSection(): Section {
  return { id: 'cautions', heading: 'Cautions', blocks: [{ kind: 'list', items }] };
}
