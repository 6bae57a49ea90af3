import { describe, expect, it } from 'vitest';
import { orInstead, unlessRefused } from '../../src/plain/unless-refused.js';

const isRange = (error: unknown) => error instanceof RangeError;
const fail = (error: Error) => (): number => {
  throw error;
};

describe('orInstead(isRefusal, compute, instead)', () => {
  it('gives what was computed, be it undefined, and asks for nothing instead', () => {
    const instead = () => {
      throw new Error('asked for what stands in its place');
    };
    expect(orInstead(isRange, () => 0, instead)).toBe(0);
    expect(orInstead(isRange, () => undefined, instead)).toBeUndefined();
  });

  it('gives what the refusal says', () => {
    expect(orInstead(isRange, fail(new RangeError('too far')), ({ message }) => message)).toBe('too far');
  });

  it('passes on any other error, as it is', () => {
    const other = new TypeError('a fault');
    expect(() => orInstead(isRange, fail(other), () => 0)).toThrow(other);
  });

  it('passes on what goes wrong where the refusal is worded', () => {
    expect(() => orInstead(isRange, fail(new RangeError()), fail(new RangeError('again')))).toThrow('again');
  });
});

describe('unlessRefused(isRefusal, compute)', () => {
  it('gives what was computed, nothing where it was refused, and passes on any other error', () => {
    expect(unlessRefused(isRange, () => 0)).toBe(0);
    expect(unlessRefused(isRange, fail(new RangeError()))).toBeUndefined();
    expect(() => unlessRefused(isRange, fail(new TypeError()))).toThrow(TypeError);
  });
});
