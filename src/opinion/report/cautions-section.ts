import { type Line, type Section, strong } from './document.js';

const items: readonly Line[] = [
  [
    strong('Before any drilling or chasing,'),
    ' have plaster, textured coatings and boards checked for asbestos where the age of the building allows for it, and old paint for lead. Masonry dust holds silica that harms the lungs: extract it at the source and wear a suitable mask.',
  ],
  [
    strong('Hidden services.'),
    ' Locate cables, gas and water pipes first, and keep out of the zones above and below sockets and switches. Wet masonry conducts: work on mains supplies, and on devices that are fed by them, is for competent persons only, with the supply protected and isolated.',
  ],
  [
    strong('Electrodes in wet masonry'),
    ' can put a voltage within reach of hands and metal pipes, corrode buried steel, and let off hydrogen and chlorine. Design, earthing, connection and changes are for a licensed electrician under the local code: switch off and isolate before touching.',
  ],
  [
    strong('Protected buildings.'),
    ' Drilling, fixing or injecting may need consent, even for a measurement. Ask the authority first; use few and small holes, in joints where possible.',
  ],
  [
    strong('Structure.'),
    ' Do not drill lintels, thin leaves or decayed masonry. Stop where water, gas or loose material comes out, and have it looked at. Mind ladders and badly aired cellars.',
  ],
  [
    strong('Mould and sewage'),
    ' can make people ill, above all the very young, the old and those with weak lungs or defences. Keep them away from the work, and do not wait for a trial to end before a health risk is dealt with.',
  ],
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
