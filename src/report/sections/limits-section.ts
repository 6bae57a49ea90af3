import type { Opinion } from '../../opinion/opinion.js';
import type { InstrumentKind } from '../../trial/index.js';
import { countInWords } from '../../words/quantity.js';
import { type Line, type Section, strong } from '../document.js';
import { dayText } from '../words/report-numbers.js';

/** What no reader should take from this opinion: what holds for every trial, then what this one's design leaves open. */
export function limitsSection(opinion: Opinion): Section {
  return {
    id: 'limits',
    heading: 'What this trial cannot say',
    blocks: [{ kind: 'list', items: [...general(opinion), ...specific(opinion)] }],
  };
}

function general(opinion: Opinion): readonly Line[] {
  const { windows } = opinion.protocol;
  return [
    [
      strong('Not why.'),
      ' A difference between the arms says that something which went with the treatment moved the readings. By which mechanism, it does not say.',
    ],
    [
      strong('Not for other walls.'),
      ` ${comparedWalls(opinion)} Other materials, thicknesses, salts, exposures and sources of water may answer differently.`,
    ],
    [
      strong('Not for another time.'),
      windows === undefined
        ? ' It says nothing of how long a change lasts.'
        : ` It compares ${dayText(windows.before.from)} to ${dayText(windows.before.to)} with ${dayText(windows.after.from)} to ${dayText(windows.after.to)}, and says nothing of how long a change lasts.`,
    ],
    ...onEachWall(opinion),
    [
      strong('Not a certificate.'),
      ' It certifies neither a product nor a wall as dry, sound, fit for plaster or healthy to live with. It weighs one trial.',
    ],
  ];
}

function comparedWalls({ walls }: Opinion): string {
  if (walls.length === 0) return 'No wall could be compared.';
  return `It speaks of ${walls.length === 1 ? 'the one wall' : `the ${walls.length} walls`} that could be compared.`;
}

/** Without a difference, and with one wall an arm, there is no average. */
function onEachWall({ walls, primary }: Opinion): readonly Line[] {
  const isOfTwoWalls = primary.kind === 'estimated' && primary.method === 'paired-series';
  if (walls.length < 2 || isOfTwoWalls) return [];
  return [
    [
      strong('Not for each wall.'),
      ' The difference is an average. Single walls may have changed more, less or the other way.',
    ],
  ];
}

const meters: Readonly<Partial<Record<InstrumentKind, string>>> = {
  microwave: 'a microwave meter responds to water, but also to density, thickness and surface',
  resistance: 'a resistance meter responds to salts as well as to water',
  capacitance: 'a capacitance meter responds to salts, density and surface as well as to water',
  'humidity-probe':
    'a humidity probe gives the air’s humidity in a hole, which salts and temperature move without any change in the water',
  'embedded-sensor': 'an embedded sensor reads the few centimetres around it and ages in the wall',
  potential:
    'an electrical potential responds to salts, electrodes and stray currents, and is no measure of the amount of water',
};

function specific(opinion: Opinion): readonly Line[] {
  return [
    ...onVerdict(opinion),
    ...onArms(opinion),
    ...onInstrument(opinion),
    ...onAllocation(opinion),
    ...onLosses(opinion),
    ...onHeights(opinion),
  ];
}

function onVerdict({ verdict }: Opinion): readonly Line[] {
  switch (verdict.code) {
    case 'undecided':
      return [
        [
          strong('Not that it does nothing.'),
          ' The trial could not tell; not finding a difference is not finding that there is none.',
        ],
      ];
    case 'no-worthwhile-effect':
      return [
        [
          strong('Not that there is no effect at all.'),
          ' It says that an effect as large as the margin does not fit these readings. A smaller one may.',
        ],
      ];
    case 'not-answerable':
      return [
        [
          strong('Not whether the treatment works.'),
          ' Neither that it does nor that it does not: these readings would look the same either way.',
        ],
      ];
    default:
      return [];
  }
}

function onArms({ protocol }: Opinion): readonly Line[] {
  if (protocol.arms.some((arm) => arm.role === 'sham')) return [];
  return [
    [
      strong('Not the treatment apart from being treated.'),
      ' There was no sham: whatever people do differently beside a wall that they know to be treated (heating, airing, looking after it) counts as effect.',
    ],
  ];
}

function onInstrument({ protocol }: Opinion): readonly Line[] {
  const kind = protocol.instruments.find((instrument) => instrument.instrument === protocol.outcome.instrument)?.kind;
  const reason = kind === undefined ? undefined : meters[kind];
  return reason === undefined
    ? []
    : [[strong('Not the amount of water itself.'), ` The outcome is an instrument’s reading, and ${reason}.`]];
}

function onAllocation({ protocol }: Opinion): readonly Line[] {
  if (protocol.allocation.method !== 'chosen') return [];
  return [
    [
      strong('Not that the arms were alike.'),
      ' The walls were chosen, not randomised: what decided the choice may also decide how walls dry.',
    ],
  ];
}

function onLosses({ leftOutWalls }: Opinion): readonly Line[] {
  if (leftOutWalls.length === 0) return [];
  return [
    [
      strong('Not for the excluded walls.'),
      ` ${countInWords(leftOutWalls.length, 'wall')} could not be compared; why, and which, is listed under “What was excluded and not used”.`,
    ],
  ];
}

function onHeights({ stations }: Opinion): readonly Line[] {
  if (stations.length === 0 || stations.some((station) => station.height_mm !== undefined)) return [];
  return [
    [
      strong('Not where in the wall.'),
      ' No heights were recorded, so that a change at the foot cannot be distinguished from one higher up, nor rising damp from other sources of water.',
    ],
  ];
}
