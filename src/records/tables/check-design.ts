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

function checkPairs(walls: readonly Wall[], { arms, compare }: ProtocolFindings, problems: Problem[]): void {
  const isTreated = (wall: Wall) =>
    compare?.treated.includes(wall.arm) ?? arms?.find(({ arm }) => arm === wall.arm)?.role === 'treated';
  const hasKnownArm = (wall: Wall) => arms?.some(({ arm, role }) => arm === wall.arm && role !== undefined) ?? false;
  const pairs = new Map<string, Wall[]>();
  for (const wall of walls) {
    if (wall.block === undefined) continue;
    const members = pairs.get(wall.block);
    if (members === undefined) pairs.set(wall.block, [wall]);
    else members.push(wall);
  }
  for (const [block, members] of pairs) {
    const last = members[members.length - 1];
    if (last === undefined) continue;
    const names = `${members
      .slice(0, 4)
      .map(({ wall }) => wall)
      .join(', ')}${members.length > 4 ? ', …' : ''}`;
    const treated = members.filter(isTreated).length;
    const found =
      members.length !== 2
        ? `${members.length} ${members.length === 1 ? 'wall' : 'walls'} in block ${quoted(block)}: ${names}`
        : treated !== 1 && members.every(hasKnownArm)
          ? `two ${treated === 2 ? 'treated' : 'untreated'} walls in block ${quoted(block)}: ${names}`
          : undefined;
    if (found === undefined) continue;
    const expected = 'one treated and one untreated wall in each block, as allocation is matched-pairs';
    problems.push({ ...last.origin, column: 'block', found, expected });
  }
}

/** A wall treated before the first day of the before window, or after the after window began, was not observed as planned. */
function checkTreatmentDay({ treatedOn, origin }: Wall, { windows }: ProtocolFindings, problems: Problem[]): void {
  if (treatedOn === undefined || windows === undefined) return;
  const { before, after } = windows;
  const found = `a treatment on ${treatedOn}`;
  if (treatedOn < before.from) {
    const expected = `none before the before window begins (${before.from})`;
    problems.push({ ...origin, column: 'treated_on', found, expected });
  } else if (treatedOn > after.from) {
    const expected = `none after the after window has begun (${after.from})`;
    problems.push({ ...origin, column: 'treated_on', found, expected });
  }
}
