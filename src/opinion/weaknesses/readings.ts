import type { Side } from '../../analysis/index.js';
import type { Weakness } from '../opinion.js';
import { countInWords, listInWords, shareInWords } from '../words/quantity.js';
import { allottedTo, type Facts } from './facts.js';

/** Share of readings below the detection limit from which their loss is serious: our convention. */
const seriousBelowDetection = 0.1;
/** Difference in the share of walls lost from which the loss is lopsided: our convention, one wall in ten. */
const lopsidedLoss = 0.1;

export function noBeforeReadings(facts: Facts): Weakness | undefined {
  return noReadingsIn(facts, 'before', 'no-before-readings', 'Read every wall, on several days, before the treatment.');
}

export function noAfterReadings(facts: Facts): Weakness | undefined {
  return noReadingsIn(facts, 'after', 'no-after-readings', 'Read every wall again in the after window of the plan.');
}

function noReadingsIn(facts: Facts, window: 'before' | 'after', code: string, remedy: string): Weakness | undefined {
  const { windows, outcome } = facts.trial.protocol;
  if (windows === undefined || facts.stations.some((station) => station[window] !== undefined)) return undefined;
  const { from, to } = windows[window];
  return {
    code,
    // Walls drawn by lot can be compared by their after values alone.
    seriousness: facts.primary.kind === 'estimated' ? 'serious' : 'fatal',
    text: `There is no usable reading of ${outcome.instrument} in the ${window} window, ${from} to ${to}, so no wall has a change.`,
    remedy,
  };
}

export function wallsLeftOut(facts: Facts): Weakness | undefined {
  const lost = facts.leftOutWalls.filter(({ wall }) => facts.sides.has(wall));
  if (lost.length === 0 || facts.walls.length === 0) return undefined;
  const lostOn = (side: Side) => lost.filter(({ wall }) => facts.sides.get(wall) === side).length;
  const shareOn = (side: Side) => (allottedTo(facts, side) === 0 ? 0 : lostOn(side) / allottedTo(facts, side));
  const isLopsided = Math.abs(shareOn('treated') - shareOn('untreated')) > lopsidedLoss;
  return {
    code: 'walls-left-out',
    seriousness: isLopsided ? 'serious' : 'minor',
    text: `${countInWords(lostOn('treated'), 'treated wall')} of ${allottedTo(facts, 'treated')} and ${countInWords(lostOn('untreated'), 'untreated wall')} of ${allottedTo(facts, 'untreated')} could not be used (${listInWords(lost.map(({ wall }) => wall))}); walls are seldom lost by chance alone.`,
    remedy: 'Keep every wall to the end, and read at several stations so that one lost station does not lose the wall.',
  };
}

export function belowDetection(facts: Facts): Weakness | undefined {
  const lost = facts.leftOutReadings
    .filter(({ reason }) => reason.startsWith('below the detection limit'))
    .reduce((sum, { count }) => sum + count, 0);
  if (lost === 0) return undefined;
  const all = lost + facts.used.length;
  return {
    code: 'readings-below-detection',
    seriousness: lost / all >= seriousBelowDetection ? 'serious' : 'minor',
    text: `${lost} of ${all} outcome readings (${shareInWords(lost, all)}) were below the detection limit and could not be averaged; leaving out the driest makes the rest look wetter.`,
    remedy: 'Use an instrument that can measure the driest wall of the trial.',
  };
}

export function outcomeIsAnIndex({ trial }: Facts): Weakness | undefined {
  const { outcome, instruments } = trial.protocol;
  const kind = instruments.find(({ instrument }) => instrument === outcome.instrument)?.kind;
  if (kind === undefined || kind === 'gravimetric' || kind === 'direct') return undefined;
  const why =
    kind === 'potential'
      ? 'a voltage in masonry follows salts, electrodes and stray currents as well as water, and is an indirect sign at best'
      : 'a meter shows an index that salts and material move as well as water, and no calibration against cores is part of this opinion';
  return {
    code: 'outcome-is-an-index',
    seriousness: 'serious',
    text: `The outcome was read with ${outcome.instrument} (${kind}) and not by weighing: ${why}.`,
    remedy: 'Make weighed and dried cores the outcome, and keep meters as company.',
  };
}
