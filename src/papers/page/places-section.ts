import { assumedDampTop_mm, type ReadingPlace } from '../../planning/calendar/reading-places.js';
import type { TrialPlan } from '../../planning/make-plan.js';
import { type Block, type Line, paragraph, type Section, strong } from '../../report/document.js';
import { listInWords } from '../../words/quantity.js';

const roles: Readonly<Record<ReadingPlace['role'], string>> = {
  foot: 'the foot, above plinth and splash',
  middle: 'the middle of the damp',
  head: 'the head of the damp',
  'above-the-damp': 'above the damp: a place that the treatment cannot reach',
  'as-planned': 'as the plan states',
};

const beside: readonly Line[] = [
  [strong('The air '), 'beside both arms, on every visit or by a logger: temperature and relative humidity.'],
  [strong('The wall’s surface: '), 'its temperature, so that condensation can be distinguished from rising damp.'],
  [strong('Salts '), 'at the same heights before and after, at least of some walls of each arm.'],
  [strong('The oven: '), 'its temperature, and the last two weighings of each batch, to show constant mass.'],
  [strong('The reader, '), 'and what the reader knows of the arm, with every reading.'],
  [strong('A check block '), 'read with each meter at the beginning and the end of a visit.'],
  [strong('The diary: '), 'heating, ventilation, plaster, leaks and floods, on the day, for every wall.'],
  [strong('Guesses: '), 'which arm readers and occupants believe each wall to be in.'],
];

/** Where walls are read, and what is written down beside. */
export function placesSection({ places, plan }: TrialPlan): Section {
  const { thickness_mm, heights_mm, dampTop_mm } = plan.planning;
  const half =
    thickness_mm === undefined ? 'half the thickness' : `${Math.round(thickness_mm / 2)} mm (half the thickness)`;
  const assumed =
    heights_mm === undefined && dampTop_mm === undefined
      ? ` The damp is taken to stand ${assumedDampTop_mm} mm high (common practice, no source): look, and correct it.`
      : '';
  return {
    id: 'places',
    heading: 'Where, and what is recorded beside',
    blocks: [
      paragraph(`The same places on every visit, marked on the wall, heights from one datum.${assumed}`),
      heightsBlock(places),
      paragraph(
        `Cores are drilled to the same depth on all walls, down to ${half} where that is allowed: what happens near the face is the air’s doing. New cores stand beside the old holes, never in them.`,
      ),
      { kind: 'list', items: beside },
    ],
  };
}

/** Heights that the plan states need no reason here. */
function heightsBlock(places: readonly ReadingPlace[]): Block {
  if (places.every(({ role }) => role === 'as-planned')) {
    const heights = places.map(({ height_mm }) => `${height_mm} mm`);
    return paragraph(strong('Heights: '), `${listInWords(heights, 12)}, ${roles['as-planned']}.`);
  }
  return {
    kind: 'table',
    caption: 'Heights on every wall',
    columns: [{ header: 'Height (mm)', look: 'whole' }, { header: 'Why' }],
    rows: places.map(({ height_mm, role }) => [[`${height_mm}`], [roles[role]]]),
  };
}
