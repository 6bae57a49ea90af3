import type { InstrumentAnswer, InstrumentFacts } from '../../findings/instruments/instrument-facts.js';
import { reasonInWords } from '../../labels/index.js';
import type { Opinion } from '../../opinion/opinion.js';
import { verdictInWords } from '../../opinion/threats/turn-in-words.js';
import type { InstrumentKind } from '../../trial/index.js';
import { decimalsFor, formatNumber, formatSigned } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { shareInWords } from '../../words/quantity.js';
import { type Block, type Line, paragraph, quoted, type Section, strong, type Table } from '../document.js';
import { dayText, intervalText } from '../words/report-numbers.js';
import { instrumentBlocks } from './instrument-blocks.js';

/** What each kind of instrument shows, and what it cannot carry. */
const bears: Readonly<Record<InstrumentKind, string>> = {
  gravimetric:
    'the water itself, by weighing. A core is destroyed by being measured: the next one comes from beside it, and places in a wall differ',
  carbide:
    'the water of a small sample, by the pressure of the gas that it makes with calcium carbide. It is given in percent of the wet mass and turned here into percent of the dry mass, w/(1 − w) (AASHTO T 217, excerpts seen). Water in coarse grains and in crystals need not react, and a sample of some grams stands for little of the wall',
  microwave:
    'an index that rises with water some centimetres deep. Density, thickness and surface move it too; it ranks places and shows change',
  resistance:
    'an index that responds to salts as well as to water. It ranks places and shows change where the salts stay as they were',
  capacitance:
    'an index of the outer centimetres that salts, density and the surface move too. It ranks places and shows change',
  'humidity-probe':
    'the air’s humidity in a hole in the wall. Near saturation large changes of water hardly show, and salts and temperature move it',
  'embedded-sensor':
    'the few centimetres around it, all the time, while its contact with the wall and its calibration age',
  potential:
    'an electrical potential. Salts, electrodes and stray currents make it; it is no measure of the amount of water',
  direct: 'a value already in the outcome’s unit; how it was made is not in this folder',
};

/** What each instrument measured, how far it agrees with the cores, and what it would have answered in their place. */
export function instrumentsSection(opinion: Opinion): Section | undefined {
  const used = opinion.instruments.filter(({ use }) => use.readings > 0);
  if (used.length === 0) return undefined;
  return {
    id: 'instruments',
    heading: 'The instruments',
    blocks: [
      ...(used.length === 1
        ? []
        : [
            paragraph(
              'Readings of different instruments do not count as evidence several times over. Each shows something of its own, and only calibration against cores of the same material makes a meter’s index into moisture.',
            ),
          ]),
      useTable(used),
      { kind: 'list', items: used.map(bearsLine) },
      ...used.flatMap((facts) => instrumentBlocks(opinion, facts)),
      ...answersBlocks(opinion, used),
    ],
  };
}

function bearsLine({ instrument, kind }: InstrumentFacts): Line {
  return [quoted(instrument), ` (${kind}) shows ${bears[kind]}.`];
}

function useTable(used: readonly InstrumentFacts[]): Table {
  return {
    kind: 'table',
    caption: 'What each instrument measured, inside and outside the windows',
    columns: [
      { header: 'Instrument' },
      { header: 'Readings', look: 'number' },
      { header: 'Below its limit', look: 'number' },
      { header: 'Without a value', look: 'number' },
      { header: 'Walls', look: 'number' },
      { header: 'Stations', look: 'number' },
      { header: 'Days', look: 'number' },
      { header: 'From and to', look: 'whole' },
    ],
    rows: used.map(({ instrument, isOutcome, use }) => [
      [quoted(instrument), ...(isOutcome ? [' (the outcome)'] : [])],
      [formatNumber(use.readings, 0)],
      [formatNumber(use.belowDetection, 0)],
      [formatNumber(use.missing, 0)],
      [formatNumber(use.walls, 0)],
      [formatNumber(use.stations, 0)],
      [formatNumber(use.days, 0)],
      [use.first === undefined || use.last === undefined ? 'none' : `${dayText(use.first)} – ${dayText(use.last)}`],
    ]),
  };
}

/** Side by side only where there is a second answer. */
function answersBlocks({ protocol }: Opinion, used: readonly InstrumentFacts[]): Block[] {
  const all = used.flatMap((facts) => facts.answers.map((answer) => ({ facts, answer })));
  if (all.length < 2) return [];
  const { outcome, confidence } = protocol;
  const own = codeOf(used.find(({ isOutcome }) => isOutcome)?.answers[0]);
  return [
    { kind: 'subheading', text: 'If another instrument had been the outcome' },
    paragraph(
      `The same comparison, treated less untreated walls, made with each instrument. The trial’s verdict rests on `,
      quoted(outcome.instrument),
      ` alone, as planned; the others show how far it would have moved. An index has no margin to be held against, so it gets no verdict. The intervals of calibrated answers hold the uncertainty of the calibration.`,
    ),
    {
      kind: 'table',
      caption: 'The primary comparison by instrument',
      columns: [
        { header: 'Instrument' },
        { header: 'Difference', look: 'number' },
        { header: `${levelInWords(confidence)} interval`, look: 'number' },
        { header: 'Unit' },
        { header: 'Walls', look: 'number' },
        { header: 'Verdict' },
      ],
      rows: all.map(({ facts, answer }) => answerRow(facts, answer, own)),
    },
    ...all.flatMap(({ facts, answer }) => movedBlocks(protocol, used, facts, answer)),
    ...all.flatMap(({ facts, answer }) =>
      answer.result.kind === 'computed'
        ? []
        : [
            paragraph(
              strong('No answer'),
              ' from ',
              quoted(facts.instrument),
              `: ${reasonInWords(answer.result.reason)}.`,
            ),
          ],
    ),
  ];
}

/** How far a calibrated meter would have moved the answer, in the margin's unit. */
function movedBlocks(
  { outcome, margin }: Opinion['protocol'],
  used: readonly InstrumentFacts[],
  facts: InstrumentFacts,
  { scale, unit, result }: InstrumentAnswer,
): Block[] {
  const own = used.find(({ isOutcome }) => isOutcome)?.answers[0]?.result;
  if (scale !== 'calibrated' || unit !== outcome.unit || result.kind !== 'computed' || own?.kind !== 'computed')
    return [];
  const moved = result.value.estimate - own.value.estimate;
  const decimals = decimalsFor((own.value.interval.upper - own.value.interval.lower) / 2);
  const [was, now] = [own.value.code, result.value.code];
  if (margin === undefined || was === undefined || now === undefined) return [];
  return [
    paragraph(
      'With ',
      quoted(facts.instrument),
      ', calibrated, in place of ',
      quoted(outcome.instrument),
      `, the difference would lie ${formatNumber(Math.abs(moved), decimals)} ${unit} ${moved < 0 ? 'lower' : 'higher'}, ${shareInWords(Math.abs(moved), margin)} of the margin; the verdict would `,
      was === now ? `stay ${verdictInWords(was)}` : `turn from ${verdictInWords(was)} to ${verdictInWords(now)}`,
      '.',
    ),
  ];
}

function codeOf(answer: InstrumentAnswer | undefined): string | undefined {
  return answer?.result.kind === 'computed' ? answer.result.value.code : undefined;
}

const scalesInWords: Readonly<Record<InstrumentAnswer['scale'], string>> = {
  'as-read': 'as read',
  calibrated: 'calibrated',
  'loss-corrected': 'corrected for the loss in drilling',
};

function answerRow(facts: InstrumentFacts, answer: InstrumentAnswer, own: string | undefined): readonly Line[] {
  const name: Line = [
    quoted(facts.instrument),
    `, ${scalesInWords[answer.scale]}`,
    ...(facts.isOutcome && answer.scale === 'as-read' ? [' (the outcome)'] : []),
  ];
  if (answer.result.kind === 'not-computed') return [name, ['none'], ['none'], [answer.unit], ['none'], ['none']];
  const { estimate, interval, walls, code: verdict } = answer.result.value;
  const decimals = decimalsFor((interval.upper - interval.lower) / 2);
  const moved = verdict !== undefined && own !== undefined && verdict !== own ? [' (another verdict)'] : [];
  return [
    name,
    [formatSigned(estimate, decimals)],
    [intervalText(interval, decimals)],
    [answer.unit],
    [`${walls.treated} + ${walls.untreated}`],
    verdict === undefined ? ['none on this scale'] : [verdictInWords(verdict), ...moved],
  ];
}
