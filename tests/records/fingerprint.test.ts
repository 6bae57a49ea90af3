import { describe, expect, it } from 'vitest';
import { fingerprint, readTrial } from '../../src/records/index.js';
import { inFolder, validFolder } from '../helpers/valid-folder.js';

const bytes = (text: string) => new TextEncoder().encode(text);

describe('fingerprint(files)', () => {
  it('is what coreutils 9.1 makes of `LC_ALL=C sha256sum protocol.json walls.csv | sha256sum`', () => {
    const files = new Map([
      ['walls.csv', bytes('wall,arm\nw1,treated\n')],
      ['protocol.json', bytes('{}\n')],
    ]);
    expect(fingerprint(files)).toBe('32d9ca86ea60309698ed2f6d3e865b2c00996a543e4f3dfb4c28da22dc7e36df');
  });

  it('is the same in whatever order the files come, and another for another byte or name', () => {
    const [a, b] = [bytes('a'), bytes('b')];
    const one = fingerprint(
      new Map([
        ['x', a],
        ['y', b],
      ]),
    );
    expect(
      fingerprint(
        new Map([
          ['y', b],
          ['x', a],
        ]),
      ),
    ).toBe(one);
    expect(
      fingerprint(
        new Map([
          ['x', a],
          ['y', a],
        ]),
      ),
    ).not.toBe(one);
    expect(
      fingerprint(
        new Map([
          ['x', a],
          ['z', b],
        ]),
      ),
    ).not.toBe(one);
  });
});

describe('readTrial(folder).source.fingerprint', () => {
  const of = async (files: Record<string, string>) => (await inFolder(files, readTrial)).source.fingerprint;

  it('is of the files of the contract and no others', async () => {
    const whole = validFolder();
    const { 'notes.txt': _, ...contract } = whole;
    const files = new Map(Object.entries(contract).map(([name, text]) => [name, bytes(text)]));
    expect(await of(whole)).toBe(fingerprint(files));
    expect(await of({ ...whole, 'photo.txt': 'x' })).toBe(await of(contract));
    expect(await of({ ...whole, 'diary.csv': `${whole['diary.csv']}\n` })).not.toBe(await of(whole));
  });
});
