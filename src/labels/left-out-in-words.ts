import type { ReadingLeftOut, WallLeftOut } from '../analysis/index.js';

/**
 * Why a wall has no place in the comparison, in words that could end a sentence.
 *
 * @example wallLeftOutInWords({ code: 'no-after' }) // 'no after value'
 */
export function wallLeftOutInWords(reason: WallLeftOut): string {
  switch (reason.code) {
    case 'no-before':
      return 'no before value';
    case 'no-after':
      return 'no after value';
    case 'no-before-or-after':
      return 'neither a before nor an after value';
    case 'other-arm':
      return `its arm ${reason.arm} is not in the primary comparison`;
    case 'alone-in-block': {
      const { block } = reason;
      const place =
        block === '' ? 'the only wall without a block' : `the only wall of its block ${block} with a change`;
      return `${place}, so there is none to compare it with`;
    }
  }
}

/**
 * Why a reading is not in the comparison, in words that could end a sentence.
 *
 * @example readingLeftOutInWords({ code: 'no-value' }) // 'no value recorded'
 */
export function readingLeftOutInWords(reason: ReadingLeftOut): string {
  return reason.code === 'other-instrument'
    ? `read with ${reason.instrument}, which is not the outcome’s instrument`
    : readings[reason.code];
}

const readings: Readonly<Record<Exclude<ReadingLeftOut['code'], 'other-instrument'>, string>> = {
  'below-detection': 'below the detection limit, so not a number',
  'no-value': 'no value recorded',
  'no-windows': 'the protocol states no windows',
  'not-yet-treated': 'dated before the treatment of its wall, so no after reading',
  'other-arm': 'its wall stands in no arm of the primary comparison',
  outside: 'outside the before and the after window',
  'station-without-after': 'its station has no after value',
  'station-without-before': 'its station has no before value',
  'treated-by-then': 'dated on or after the treatment of its wall, so no before reading',
  'wall-without-partner': 'its wall has none to be compared with',
};
