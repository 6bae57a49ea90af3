import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  integerBelow,
  normalDraws,
  randomStream,
  shuffled,
  uniform,
} from '../../../../src/statistics/resampling/random/index.js';
import { streamsOf } from '../../../../src/statistics/resampling/random/random-stream.js';

const seeds = fc.maxSafeInteger();

function wordsOf(seed: number, index: number, count: number): number[] {
  const stream = randomStream(seed, index);
  return Array.from({ length: count }, () => stream.next());
}

/** Pearson's chi-square of counts against equal chances. */
function chiSquare(counts: readonly number[]): number {
  const expected = counts.reduce((sum, count) => sum + count, 0) / counts.length;
  return counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
}

function tally(draws: Iterable<number>, cells: number): number[] {
  const counts = new Array<number>(cells).fill(0);
  for (const draw of draws) counts[draw] = (counts[draw] ?? Number.NaN) + 1;
  return counts;
}

describe('randomStream', () => {
  it('streamsOf(seed) gives the streams of randomStream(seed, index), in whatever order they are asked for', () => {
    const streamOf = streamsOf(7);
    const words = [0, 1, 1, 5, 2, 6].map((index) => streamOf(index).next());
    expect(words).toEqual([0, 1, 1, 5, 2, 6].map((index) => randomStream(7, index).next()));
  });

  it('randomStream(seed, index) is the same whenever it is made', () => {
    fc.assert(
      fc.property(seeds, fc.nat(5), (seed, index) => {
        expect(wordsOf(seed, index, 4)).toEqual(wordsOf(seed, index, 4));
      }),
    );
  });

  it('randomStream(seed) differs between neighbouring seeds from the first word, in about half of its bits', () => {
    const firsts = Array.from({ length: 2000 }, (_, seed) => wordsOf(seed, 0, 1)[0] ?? 0);
    expect(new Set(firsts).size).toBeGreaterThan(1998);
    const flips = firsts.slice(1).map((word, at) => bitsSet(word ^ (firsts[at] ?? 0)));
    const mean = flips.reduce((sum, flip) => sum + flip, 0) / flips.length;
    expect(Math.abs(mean - 16)).toBeLessThan(0.3);
  });

  it('randomStream(seed) uses all 53 bits of the seed', () => {
    expect(wordsOf(7, 0, 2)).not.toEqual(wordsOf(7 + 2 ** 32, 0, 2));
    expect(wordsOf(7, 0, 2)).not.toEqual(wordsOf(-7, 0, 2));
  });

  it('randomStream(seed, index) gives streams that share no run of words', () => {
    const first = wordsOf(11, 0, 5000);
    const second = new Set(wordsOf(11, 1, 5000));
    // Of 25 million pairs of 32-bit words about 0.006 would agree by chance.
    expect(first.filter((word) => second.has(word)).length).toBeLessThanOrEqual(1);
  });

  it.each([[0.5], [Number.NaN], [2 ** 53]])('randomStream(%s) is refused', (seed) => {
    expect(() => randomStream(seed)).toThrow(/randomStream needs a whole number as seed/);
  });

  it('randomStream(1, -1) is refused', () => {
    expect(() => randomStream(1, -1)).toThrow(/stream index/);
  });
});

function bitsSet(word: number): number {
  return (word >>> 0).toString(2).replaceAll('0', '').length;
}

describe('uniform', () => {
  it('uniform(stream) lies in [0, 1), is a multiple of 2^-53 and uses the last bit', () => {
    const stream = randomStream(3);
    const draws = Array.from({ length: 2000 }, () => uniform(stream));
    expect(draws.every((draw) => draw >= 0 && draw < 1 && Number.isInteger(draw * 2 ** 53))).toBe(true);
    expect(draws.some((draw) => (draw * 2 ** 53) % 2 === 1)).toBe(true);
  });

  it('uniform(stream) fills 64 equal cells evenly: chi-square of 64,000 draws below its 99.99 % point 113.5 and above its 0.01 % point 29.5', () => {
    const stream = randomStream(5);
    const statistic = chiSquare(
      tally(
        Array.from({ length: 64_000 }, () => Math.floor(64 * uniform(stream))),
        64,
      ),
    );
    expect(statistic).toBeLessThan(113.5);
    expect(statistic).toBeGreaterThan(29.5);
  });
});

describe('integerBelow', () => {
  it('integerBelow(stream, bound) is a whole number in range', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 1, max: 2 ** 32 }), (seed, bound) => {
        const drawn = integerBelow(randomStream(seed), bound);
        expect(Number.isInteger(drawn) && drawn >= 0 && drawn < bound).toBe(true);
      }),
    );
  });

  it('integerBelow(stream, 7) is even over its seven values: chi-square below the 99.99 % point 27.9', () => {
    const stream = randomStream(9);
    expect(
      chiSquare(
        tally(
          Array.from({ length: 70_000 }, () => integerBelow(stream, 7)),
          7,
        ),
      ),
    ).toBeLessThan(27.9);
  });

  it('integerBelow(stream, 3 * 2^30) has no bias: its upper third comes up as often as the others', () => {
    // Taking the remainder of a word would make the first third twice as likely as the rest.
    const stream = randomStream(13);
    const thirds = Array.from({ length: 30_000 }, () => Math.floor(integerBelow(stream, 3 * 2 ** 30) / 2 ** 30));
    expect(chiSquare(tally(thirds, 3))).toBeLessThan(18.42);
  });

  it.each([[0], [-1], [1.5], [2 ** 32 + 1], [Number.NaN]])('integerBelow(stream, %s) is refused', (bound) => {
    expect(() => integerBelow(randomStream(1), bound)).toThrow(/whole number from 1 to 2\^32/);
  });
});

describe('shuffled', () => {
  it('shuffled(stream, items) keeps every item and leaves the input alone', () => {
    fc.assert(
      fc.property(seeds, fc.array(fc.integer()), (seed, items) => {
        const input = Object.freeze([...items]);
        const ascending = (a: number, b: number) => a - b;
        expect(shuffled(randomStream(seed), input).sort(ascending)).toEqual([...items].sort(ascending));
      }),
    );
  });

  it('shuffled(stream, [0, 1, 2, 3]) gives each of the 24 orders alike: chi-square below the 99.99 % point 57.07', () => {
    const stream = randomStream(17);
    const counts = new Map<string, number>();
    for (let repeat = 0; repeat < 24_000; repeat++) {
      const order = shuffled(stream, [0, 1, 2, 3]).join('');
      counts.set(order, (counts.get(order) ?? 0) + 1);
    }
    expect(counts.size).toBe(24);
    expect(chiSquare([...counts.values()])).toBeLessThan(57.07);
  });
});

describe('normalDraws', () => {
  it('normalDraws(stream, 100,000) has the first four moments of the standard normal within five standard errors', () => {
    const draws = normalDraws(randomStream(19), 100_000);
    const moment = (power: number) => draws.reduce((sum, draw) => sum + draw ** power, 0) / draws.length;
    expect(Math.abs(moment(1))).toBeLessThan(5 * Math.sqrt(1 / 1e5));
    expect(Math.abs(moment(2) - 1)).toBeLessThan(5 * Math.sqrt(2 / 1e5));
    expect(Math.abs(moment(3))).toBeLessThan(5 * Math.sqrt(15 / 1e5));
    expect(Math.abs(moment(4) - 3)).toBeLessThan(5 * Math.sqrt(96 / 1e5));
  });

  it('normalDraws(stream, 3) begins as normalDraws(stream, 4) does', () => {
    expect([...normalDraws(randomStream(23), 3)]).toEqual([...normalDraws(randomStream(23), 4)].slice(0, 3));
  });
});
