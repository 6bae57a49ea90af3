import { describe, expect, it } from 'vitest';
import { comparisonDesign, comparisonSides, type Side, type WallChange } from '../../src/analysis/index.js';
import { soundProtocol } from '../helpers/made-trial.js';

function wall(name: string, side: Side, block: string): WallChange {
  return { wall: name, arm: side, side, block, before: 8, after: 7, change: -1, stations: 1, places: 'same' };
}

describe('comparisonDesign', () => {
  it('is complete without blocks', () => {
    const { design, leftOut } = comparisonDesign([wall('A', 'treated', ''), wall('B', 'untreated', '')]);
    expect(design.kind).toBe('complete');
    expect(leftOut).toEqual([]);
  });

  it('is pairs where each block holds one treated and one untreated wall', () => {
    const walls = [
      wall('A', 'treated', '1'),
      wall('B', 'untreated', '2'),
      wall('C', 'untreated', '1'),
      wall('D', 'treated', '2'),
    ];
    const { design } = comparisonDesign(walls);
    expect(
      design.kind === 'pairs' && design.pairs.map(({ treated, untreated }) => treated.wall + untreated.wall),
    ).toEqual(['AC', 'DB']);
  });

  it('is blocks where one block holds more than a pair', () => {
    const walls = [
      wall('A', 'treated', '1'),
      wall('B', 'untreated', '1'),
      wall('C', 'treated', '2'),
      wall('D', 'untreated', '2'),
      wall('E', 'untreated', '2'),
    ];
    expect(comparisonDesign(walls).design.kind).toBe('blocks');
  });

  it('names a wall that lost its partner and keeps the whole pairs', () => {
    const walls = [
      wall('A', 'treated', '1'),
      wall('B', 'untreated', '1'),
      wall('C', 'treated', '2'),
      wall('D', 'treated', '3'),
      wall('E', 'untreated', '3'),
    ];
    const { design, leftOut } = comparisonDesign(walls);
    expect(design.kind).toBe('pairs');
    expect(leftOut).toEqual([{ wall: 'C', reason: { code: 'alone-in-block', block: '2' } }]);
  });

  it('takes walls without a block, where others have one, as one further block', () => {
    const walls = [
      wall('A', 'treated', '1'),
      wall('B', 'untreated', '1'),
      wall('C', 'treated', ''),
      wall('D', 'untreated', ''),
      wall('E', 'untreated', ''),
    ];
    const { design, leftOut } = comparisonDesign(walls);
    expect(design.kind).toBe('blocks');
    expect(design.walls).toHaveLength(5);
    expect(leftOut).toEqual([]);
  });

  it('is confounded, and keeps every wall, where no block holds both sides', () => {
    const walls = [wall('A', 'treated', '1'), wall('B', 'treated', '1'), wall('C', 'untreated', '2')];
    const { design, leftOut } = comparisonDesign(walls);
    expect(design.kind).toBe('confounded');
    expect(design.walls).toHaveLength(3);
    expect(leftOut).toEqual([]);
  });

  it('is complete where all walls stand on one side, whatever the blocks', () => {
    expect(comparisonDesign([wall('A', 'treated', '1'), wall('B', 'treated', '2')]).design.kind).toBe('complete');
  });
});

describe('comparisonSides', () => {
  const arms = [
    { arm: 'box', role: 'treated' },
    { arm: 'dummy', role: 'sham' },
    { arm: 'plain', role: 'control' },
  ] as const;

  it('shams and controls stand against every treated role', () => {
    expect([...comparisonSides({ ...soundProtocol, arms })]).toEqual([
      ['box', 'treated'],
      ['dummy', 'untreated'],
      ['plain', 'untreated'],
    ]);
  });

  it('what the plan compares alone, whatever the roles', () => {
    const compare = { treated: ['dummy'], untreated: ['plain'] };
    expect([...comparisonSides({ ...soundProtocol, arms, compare })]).toEqual([
      ['dummy', 'treated'],
      ['plain', 'untreated'],
    ]);
  });
});
