/** What whoever stands at a wall should know before drilling or reading: `lead` opens, `text` goes on. */
export const siteCautions = [
  {
    lead: 'Before any drilling or chasing,',
    text: 'have plaster, textured coatings and boards checked for asbestos where the age of the building allows for it, and old paint for lead. Masonry dust holds silica that harms the lungs: extract it at the source and wear a suitable mask.',
  },
  {
    lead: 'Hidden services.',
    text: 'Locate cables, gas and water pipes first, and keep out of the zones above and below sockets and switches. Wet masonry conducts: work on mains supplies, and on devices that are fed by them, is for competent persons only, with the supply protected and isolated.',
  },
  {
    lead: 'Electrodes in wet masonry',
    text: 'can put a voltage within reach of hands and metal pipes, corrode buried steel, and let off hydrogen and chlorine. Design, earthing, connection and changes are for a licensed electrician under the local code: switch off and isolate before touching.',
  },
  {
    lead: 'Protected buildings.',
    text: 'Drilling, fixing or injecting may need consent, even for a measurement. Ask the authority first; use few and small holes, in joints where possible.',
  },
  {
    lead: 'Structure.',
    text: 'Do not drill lintels, thin leaves or decayed masonry. Stop where water, gas or loose material comes out, and have it looked at. Mind ladders and badly aired cellars.',
  },
  {
    lead: 'Mould and sewage',
    text: 'can make people ill, above all the very young, the old and those with weak lungs or defences. Keep them away from the work, and do not wait for a trial to end before a health risk is dealt with.',
  },
] as const;
