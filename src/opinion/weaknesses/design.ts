import { fewestSeriesVisits } from '../../analysis/index.js';
import type { Weakness } from '../opinion.js';
import { countInWords } from '../words/quantity.js';
import { allottedTo, type Facts } from './facts.js';

export function noUntreatedWalls(facts: Facts): Weakness | undefined {
  if (allottedTo(facts, 'untreated') > 0) return undefined;
  return {
    code: 'no-untreated-walls',
    seriousness: 'fatal',
    text: `All ${allottedTo(facts, 'treated')} walls in the comparison were treated and none was left untreated, so drying by season, heating or time cannot be told from drying by treatment.`,
    remedy: 'Leave some of the walls untreated, chosen by lot, and read them in the same way and on the same days.',
  };
}

export function noTreatedWalls(facts: Facts): Weakness | undefined {
  if (allottedTo(facts, 'treated') > 0) return undefined;
  return {
    code: 'no-treated-walls',
    seriousness: 'fatal',
    text: `No wall in the comparison was treated (${allottedTo(facts, 'untreated')} untreated), so there is no effect to look for.`,
    remedy: 'Treat some of the walls, chosen by lot.',
  };
}

const several = 'Have several walls in each arm: at least four, better twelve.';
const together = `Short of that, read both walls on the same days, at least ${fewestSeriesVisits} times before and ${fewestSeriesVisits} after: that tells what these two did.`;

export function oneWallAnArm(facts: Facts): Weakness | undefined {
  const [treated, untreated] = [allottedTo(facts, 'treated'), allottedTo(facts, 'untreated')];
  if (treated === 0 || untreated === 0 || Math.min(treated, untreated) > 1) return undefined;
  // One wall on one side can still be compared inside a block that holds several of the other side.
  const seriousness = facts.primary.kind === 'estimated' ? 'serious' : 'fatal';
  return {
    code: 'one-wall-an-arm',
    seriousness,
    text: `The trial has ${countInWords(treated, 'treated wall')} and ${countInWords(untreated, 'untreated wall')}: whatever sets that single wall apart looks like an effect, however often it was read. The result speaks of these walls only.`,
    remedy: seriousness === 'fatal' && facts.series !== undefined ? `${several} ${together}` : several,
    // A series judges what these two walls did, and nothing judges what two others would have done.
    ...(facts.primary.kind === 'estimated' && facts.primary.method === 'paired-series'
      ? { evidenceAtBest: 'shaky' as const }
      : {}),
  };
}

export function armsConfoundedWithBlocks(facts: Facts): Weakness | undefined {
  const sidesByBlock = new Map<string, Set<string>>();
  for (const { block, side } of facts.units.units)
    sidesByBlock.set(block, (sidesByBlock.get(block) ?? new Set()).add(side));
  const hasBothSides = new Set(facts.walls.map(({ side }) => side)).size === 2;
  const isConfounded = sidesByBlock.size > 1 && [...sidesByBlock.values()].every((sides) => sides.size === 1);
  if (!hasBothSides || !isConfounded) return undefined;
  return {
    code: 'arms-confounded-with-blocks',
    seriousness: 'fatal',
    text: `Each of the ${sidesByBlock.size} blocks holds walls of one side only, so a difference between arms cannot be told from a difference between blocks.`,
    remedy: 'Have at least one treated and one untreated wall in each block.',
  };
}

export function notRandomised({ trial }: Facts): Weakness | undefined {
  if (trial.protocol.allocation.method !== 'chosen') return undefined;
  return {
    code: 'not-randomised',
    seriousness: 'serious',
    text: 'Which walls were treated was chosen and not drawn by lot, so the arms may have differed from the start in ways that nobody recorded.',
    remedy: 'Draw the treated walls by lot, inside pairs or blocks of like walls, by a person outside the trial.',
  };
}

export function noSham(facts: Facts): Weakness | undefined {
  const roles = new Map(facts.trial.protocol.arms.map(({ arm, role }) => [arm, role]));
  const untreated = facts.trial.walls.filter(({ wall }) => facts.sides.get(wall) === 'untreated');
  if (untreated.length === 0 || untreated.some(({ arm }) => roles.get(arm) === 'sham')) return undefined;
  return {
    code: 'no-sham',
    seriousness: 'minor',
    text: `${untreated.length === 1 ? 'The untreated wall had no sham' : `None of the ${untreated.length} untreated walls had a sham`}, so those who lived beside the walls or read them could see which were treated and may have heated, aired or read them differently.`,
    remedy: 'Fit untreated walls with a sham that looks and sounds the same and does nothing.',
  };
}

export function tooFewWalls({ trial, smallestPossibleP, walls, primary }: Facts): Weakness | undefined {
  // Without an interval, or with one wall an arm, there is a graver weakness to name.
  if (primary.kind === 'not-estimated' || primary.method === 'paired-series') return undefined;
  const alpha = 1 - trial.protocol.confidence;
  // The small allowance keeps 1 − 0.95 from being a hair below 1/20.
  if (smallestPossibleP === undefined || smallestPossibleP <= alpha * (1 + 1e-9)) return undefined;
  return {
    code: 'too-few-walls',
    seriousness: 'serious',
    text: `With these ${walls.length} walls the smallest p-value that chance allocation alone can give is ${smallestPossibleP.toFixed(2)}, above the ${alpha.toFixed(2)} that the stated confidence asks for: the interval leans on the assumption that walls vary normally.`,
    remedy: 'Have more walls: at 95 % confidence at least four against four, or six pairs.',
  };
}
