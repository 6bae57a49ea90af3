import type { PotentialFacts } from '../../findings/potentials/potentials-of-trial.js';
import { reasonInWords } from '../../labels/index.js';
import type { SignChangesOfWalls, SignTally } from '../../moisture/index.js';
import { decimalsFor, formatNumber, formatSigned, formatStated } from '../../words/format-number.js';
import { levelInWords } from '../../words/movement.js';
import { countInWords } from '../../words/quantity.js';
import { type Block, paragraph, quoted } from '../document.js';
import { dayText, intervalText } from '../words/report-numbers.js';

const polarities = {
  'point-minus-reference': 'the wall less the reference',
  'reference-minus-point': 'the reference less the wall, turned round here',
} as const;

/** How voltages were taken, what the meter adds to them, and when their signs changed. No conclusion is drawn here. */
export function potentialBlocks(facts: PotentialFacts): readonly Block[] {
  const { instrument, setup, readings, ofVisit_mv, signs } = facts;
  const { electrode, reference, polarity, impedance_mohm } = setup;
  const impedance =
    impedance_mohm === undefined
      ? '; the meter’s input impedance is not stated'
      : `; the meter’s input impedance is ${formatStated(impedance_mohm)} MΩ`;
  return [
    { kind: 'subheading', text: 'The voltages' },
    paragraph(
      quoted(instrument),
      `: ${countInWords(readings, 'reading')} between `,
      quoted(electrode),
      ' and ',
      quoted(reference),
      `, ${polarities[polarity]}${impedance}.`,
    ),
    ...offsetBlocks(facts),
    ...(signs.kind === 'not-computed'
      ? [paragraph(`When signs changed cannot be said: ${reasonInWords(signs.reason)}.`)]
      : signBlocks(signs.value, ofVisit_mv)),
  ];
}

function offsetBlocks({ offset, oneWay }: PotentialFacts): readonly Block[] {
  if (offset === undefined)
    return [
      paragraph(
        'No place was read with the leads swapped, so that what the meter itself adds to every reading is not known.',
      ),
    ];
  if (offset.kind === 'not-computed')
    return [paragraph(`What the meter itself adds cannot be said: ${reasonInWords(offset.reason)}.`)];
  const { pairs, offset_mv, interval, drift } = offset.value;
  const decimals = decimalsFor((interval.upper - interval.lower) / 2);
  const moved =
    drift === undefined
      ? ''
      : ` Over ${formatNumber(drift.days, 0)} days it moved by ${formatSigned(drift.drift, decimals)} mV (${intervalText(drift.interval, decimals)}).`;
  return [
    paragraph(
      `At ${countInWords(pairs.length, 'place and day', 'places and days')} the leads were swapped: the meter itself adds ${formatSigned(offset_mv, decimals)} mV (${levelInWords(interval.level)} interval ${intervalText(interval, decimals)}).${moved}${takenOff(oneWay)} What the electrodes add turns with the leads and stays in the readings.`,
    ),
  ];
}

function takenOff(oneWay: number): string {
  if (oneWay === 0) return ' Every place was read both ways, so that this drops out.';
  return ` At ${countInWords(oneWay, 'place and day', 'places and days')} the leads stayed one way; there it was subtracted.`;
}

function signBlocks(signs: SignChangesOfWalls, ofVisit_mv: number | undefined): readonly Block[] {
  const scatter =
    ofVisit_mv === undefined
      ? ''
      : ` A wall’s mean at a visit is uncertain by ${formatNumber(ofVisit_mv, decimalsFor(ofVisit_mv))} mV (standard uncertainty, from the scatter of its places).`;
  return [
    {
      kind: 'table',
      caption: 'Changes of sign, walls counted; only visits whose sign is clear count',
      columns: [
        { header: 'Walls' },
        { header: 'Read', look: 'number' },
        { header: 'Changed once', look: 'number' },
        { header: 'Kept their sign', look: 'number' },
        { header: 'Back and forth', look: 'number' },
        { header: 'Unclear', look: 'number' },
        { header: 'Changed between', look: 'whole' },
      ],
      rows: (['treated', 'untreated'] as const)
        .filter((side) => signs[side].walls > 0)
        .map((side) => [[side], ...tallyCells(signs[side]).map((cell) => [cell]), [spanOf(signs, side)]]),
    },
    paragraph(
      `The dates are the last day with the old sign and the first with the new one, over all walls of a side.${scatter} A change that untreated walls show too cannot be put down to the treatment.`,
    ),
  ];
}

function tallyCells({ walls, changed, unchanged, backAndForth, unclear }: SignTally): readonly string[] {
  return [walls, changed, unchanged, backAndForth, unclear].map((count) => formatNumber(count, 0));
}

function spanOf(signs: SignChangesOfWalls, side: 'treated' | 'untreated'): string {
  const changes = signs.walls.flatMap((each) =>
    each.side === side && each.change.kind === 'changed' ? [each.change] : [],
  );
  const [first] = changes.map(({ after }) => after).sort();
  const last = changes
    .map(({ by }) => by)
    .sort()
    .at(-1);
  return first === undefined || last === undefined ? 'none' : `${dayText(first)} – ${dayText(last)}`;
}
