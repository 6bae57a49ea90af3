import { groupBy } from '../../plain/group-by.js';
import type { Problem, Wall } from '../../trial/index.js';
import type { ProtocolFindings } from '../protocol/findings.js';
import { quoted } from '../quoted.js';

/** What the walls must look like for the protocol's allocation and windows to be true of them. */
export function checkDesign(walls: readonly Wall[], findings: ProtocolFindings, problems: Problem[]): void {
  const { method } = findings;
  if (method === 'randomised-in-blocks' || method === 'matched-pairs') checkBlocks(walls, method, problems);
  // A wall that has lost its block leaves a pair of one, which is not the thing to mend.
  if (method === 'matched-pairs' && walls.every(({ block }) => block !== undefined)) {
    checkPairs(walls, findings, problems);
  }
  if (findings.unit === 'site') checkSites(walls, findings, problems);
  for (const wall of walls) checkTreatmentDay(wall, findings, problems);
}

function checkBlocks(walls: readonly Wall[], method: string, problems: Problem[]): void {
  const first = walls[0];
  if (first !== undefined && walls.every(({ block }) => block === undefined)) {
    const expected = `a block for every wall, as allocation is ${method}`;
    problems.push({ ...first.origin, column: 'block', found: 'no block for any wall', expected });
    return;
  }
  for (const { wall, block, origin } of walls) {
    if (block !== undefined) continue;
    const found = `no block for wall ${quoted(wall)}`;
    problems.push({
      ...origin,
      column: 'block',
      found,
      expected: `a block for every wall, as allocation is ${method}`,
    });
  }
}

function checkPairs(all: readonly Wall[], findings: ProtocolFindings, problems: Problem[]): void {
  const { arms, compare, unit = 'wall' } = findings;
  // Where sites are the units a pair is one of sites: one wall stands for each.
  const walls = unit === 'site' ? oneOfEachSite(all) : all;
  const isTreated = (wall: Wall) =>
    compare?.treated.includes(wall.arm) ?? arms?.find(({ arm }) => arm === wall.arm)?.role === 'treated';
  const hasKnownArm = (wall: Wall) => arms?.some(({ arm, role }) => arm === wall.arm && role !== undefined) ?? false;
  for (const [block, members] of groupBy(walls, (wall) => wall.block)) {
    const last = members.at(-1) ?? members[0];
    const names = namesOf(members);
    const treated = members.filter(isTreated).length;
    const found =
      members.length !== 2
        ? `${members.length} ${unit}${members.length === 1 ? '' : 's'} in block ${quoted(block)}: ${names}`
        : treated !== 1 && members.every(hasKnownArm)
          ? `two ${treated === 2 ? 'treated' : 'untreated'} ${unit}s in block ${quoted(block)}: ${names}`
          : undefined;
    if (found === undefined) continue;
    const expected = `one treated and one untreated ${unit} in each block, as allocation is matched-pairs`;
    problems.push({ ...last.origin, column: 'block', found, expected });
  }
}

function oneOfEachSite(walls: readonly Wall[]): readonly Wall[] {
  const sites = new Set<string>();
  return walls.filter(({ site, block }) => {
    const key = JSON.stringify([site, block]);
    return site === undefined || (!sites.has(key) && sites.add(key));
  });
}

/**
 * Sites that were allocated whole have all their walls on one side of the comparison. A site with both was not, and its walls
 * must not be averaged.
 */
function checkSites(walls: readonly Wall[], findings: ProtocolFindings, problems: Problem[]): void {
  const sides = sideOfArms(findings);
  const compared = walls.filter(({ arm }) => sides.has(arm));
  for (const { wall, site, origin } of compared) {
    if (site !== undefined) continue;
    const expected = 'a site for every wall of the comparison, as allocation.unit is site';
    problems.push({ ...origin, column: 'site', found: `no site for wall ${quoted(wall)}`, expected });
  }
  for (const [site, members] of groupBy(compared, (wall) => wall.site)) {
    const last = members.at(-1) ?? members[0];
    if (new Set(members.map(({ arm }) => sides.get(arm))).size < 2) continue;
    const found = `treated and untreated walls at site ${quoted(site)}: ${namesOf(members)}`;
    const expected =
      'walls of one side at each site, as allocation.unit is site; state "wall" there if single walls were allocated, or give parts of the site that were allocated by themselves names of their own';
    problems.push({ ...last.origin, column: 'site', found, expected });
  }
}

/** Whether an arm is on the treated side; arms outside the comparison, and those that the protocol does not know, are absent. */
function sideOfArms({ arms = [], compare }: ProtocolFindings): ReadonlyMap<string, boolean> {
  if (compare === undefined)
    return new Map(arms.flatMap(({ arm, role }) => (role === undefined ? [] : [[arm, role === 'treated'] as const])));
  return new Map([
    ...compare.treated.map((arm) => [arm, true] as const),
    ...compare.untreated.map((arm) => [arm, false] as const),
  ]);
}

function namesOf(walls: readonly Wall[]): string {
  const names = walls.slice(0, 4).map(({ wall }) => wall);
  return `${names.join(', ')}${walls.length > 4 ? ', …' : ''}`;
}

/**
 * A wall treated before its before window begins was never read untreated, and one treated after its after window ends never
 * read treated. A treatment inside a window is possible: readings on the wrong side of it are left out of the analysis.
 */
function checkTreatmentDay(
  { treatedOn, windows: own, origin }: Wall,
  findings: ProtocolFindings,
  problems: Problem[],
): void {
  const windows = own ?? findings.windows;
  if (treatedOn === undefined || windows === undefined) return;
  const { before, after } = windows;
  const whose = own === undefined ? 'the' : 'its';
  const found = `a treatment on ${treatedOn}`;
  if (treatedOn < before.from) {
    const expected = `none before ${whose} before window begins (${before.from})`;
    problems.push({ ...origin, column: 'treated_on', found, expected });
  } else if (treatedOn > after.to) {
    const expected = `none after ${whose} after window has ended (${after.to})`;
    problems.push({ ...origin, column: 'treated_on', found, expected });
  }
}
