import { describe, expect, it } from 'vitest';
import { opinionJson } from '../../src/report/writers/opinion-json.js';
import { bundledOpinion } from '../helpers/bundled-opinions.js';

interface Told {
  readonly primary: { readonly interval: { readonly level: number; readonly lower: number; readonly upper: number } };
  readonly walls: readonly { readonly wall: string; readonly arm: string; readonly change: number }[];
  readonly charts: readonly { readonly description: string; readonly layers: readonly (readonly object[])[] }[];
}

async function told(name: string): Promise<Told> {
  return JSON.parse(opinionJson(await bundledOpinion(name))) as Told;
}

/** The rows of the first layer of a chart that hold a field. */
function rowsWith<Row>({ charts }: Told, title: string, field: string): readonly Row[] {
  const chart = charts.find(({ description }) => description.startsWith(title));
  return (chart?.layers.find(([first]) => first !== undefined && field in first) ?? []) as readonly Row[];
}

describe('the charts’ data in opinion.json', () => {
  // Welch, pairs, and two walls whose interval no Student's t gives.
  it.each(['picked-for-being-wet', 'paired-garden-walls', 'windward-and-sheltered'])(
    '%s: the confidence curve is 0.05 at the limits of the primary interval, and is 1 once',
    async (name) => {
      const opinion = await told(name);
      const curve = rowsWith<{ value: number; pValue: number }>(opinion, 'Every difference', 'value');
      const limits = curve.filter(({ pValue }) => Math.abs(pValue - 0.05) < 1e-9).map(({ value }) => value);
      const { level, lower, upper } = opinion.primary.interval;
      expect(level).toBe(0.95);
      expect(limits).toEqual([lower, upper]);
      expect(curve.filter(({ pValue }) => pValue === 1)).toHaveLength(1);
      const rising = curve.slice(0, curve.findIndex(({ pValue }) => pValue === 1) + 1).map(({ pValue }) => pValue);
      expect(rising).toEqual([...rising].sort((one, other) => one - other));
    },
  );

  it('there is no curve where there is no interval', async () => {
    expect(
      (await told('treated-walls-only')).charts.some(({ description }) => description.startsWith('Every diff')),
    ).toBe(false);
  });

  it('every wall stands in the chart of changes with the change of the table', async () => {
    const opinion = await told('salty-chapel-walls');
    const chart = opinion.charts.find(({ description }) => description.startsWith('The change of every wall'));
    const rows = (chart?.layers ?? [])
      .flat()
      .filter((row): row is { wall: string; change: number; y: number } => 'change' in row);
    const changeOf = new Map(opinion.walls.map(({ wall, change }) => [wall, change]));
    expect(rows).toHaveLength(opinion.walls.length);
    for (const { wall, change } of rows) expect(change).toBe(changeOf.get(wall));
    for (const arm of new Set(opinion.walls.map((wall) => wall.arm))) {
      const own = new Set(opinion.walls.flatMap((wall) => (wall.arm === arm ? [wall.wall] : [])));
      const changes = rows.filter(({ wall }) => own.has(wall)).map(({ change }) => change);
      expect(changes).toEqual([...changes].sort((one, other) => one - other));
    }
  });
});
