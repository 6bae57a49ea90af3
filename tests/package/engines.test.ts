import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

interface Locked {
  readonly engines?: { readonly node?: string };
}

const root = join(import.meta.dirname, '..', '..');
const read = (file: string) => JSON.parse(readFileSync(join(root, file), 'utf8'));

type Version = readonly [number, number, number];

function versionOf(text: string): Version {
  const [major = 0, minor = 0, patch = 0] = text.split('.').map((part) => Number(part));
  if ([major, minor, patch].some(Number.isNaN)) throw new RangeError(`no version: ${text}`);
  return [major, minor, patch];
}

function isBefore(one: Version, other: Version): boolean {
  const at = one.findIndex((part, index) => part !== other[index]);
  return at !== -1 && (one[at] ?? 0) < (other[at] ?? 0);
}

/** Node's ranges as packages write them: `>=20.19`, `^20.0.0 || >=24`, `14 || 16`, `>=6 <21`, `*`. */
function includes(range: string, version: Version): boolean {
  return range.split('||').some((alternative) =>
    [...alternative.matchAll(/(>=|<=|>|<|\^|~|=)?\s*v?([\d.]+|[*x])(\.x)*/g)].every(([, sign = '', text = '']) => {
      if (text === '*' || text === 'x') return true;
      const bound = versionOf(text);
      const next: Version = [bound[0] + 1, 0, 0];
      if (sign === '>=') return !isBefore(version, bound);
      if (sign === '>') return isBefore(bound, version);
      if (sign === '<') return isBefore(version, bound);
      if (sign === '<=') return !isBefore(bound, version);
      return !isBefore(version, bound) && isBefore(version, next);
    }),
  );
}

describe('every locked package', () => {
  const oldest = versionOf(read('package.json').engines.node.replace('>=', ''));
  const locked = Object.entries<Locked>(read('package-lock.json').packages);
  const refusing = (version: Version) =>
    locked.filter(([, { engines }]) => !includes(engines?.node ?? '*', version)).map(([path]) => path);

  it('accepts the oldest Node that package.json promises, so that npm ci warns of nothing', () => {
    expect(locked.length).toBeGreaterThan(200);
    expect(refusing(oldest)).toEqual([]);
  });

  it('is really asked: Node 16 is refused by some, and nanoid 6 would refuse Node 20', () => {
    expect(refusing([16, 0, 0]).length).toBeGreaterThan(5);
    expect(includes('^22 || ^24 || >=26', oldest)).toBe(false);
    expect(includes('^20.19.0 || >=22.12.0', oldest)).toBe(true);
    expect(includes('^20.19.0 || >=22.12.0', [20, 18, 0])).toBe(false);
  });
});
