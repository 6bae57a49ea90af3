import { runInThisContext } from 'node:vm';
import { expect, it } from 'vitest';

/** A function that draws without a seed, as if it stood in that file of the repository. */
const drawsIn = (file: string): (() => number) =>
  runInThisContext('(() => Math.random())', { filename: new URL(`../${file}`, import.meta.url).href });

it('ambient randomness in our own code fails the test that meets it, in that of others it does not', () => {
  expect(drawsIn('src/planning/allocation.ts')).toThrow('pass a seeded generator instead');
  for (const file of ['node_modules/one/src/index.js', 'tests/one.test.ts']) expect(drawsIn(file)()).toBeLessThan(1);
});
