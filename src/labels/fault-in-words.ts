import type { MoistureFault } from '../moisture/index.js';
import type { StatisticsFault } from '../statistics/index.js';

/** Why a computation was refused, as far as its fault says, in words that end a sentence beginning with "because". */
export function faultInWords(fault: StatisticsFault | MoistureFault): string {
  switch (fault) {
    case 'too-few':
    case 'empty-level':
    case 'too-many-parameters':
      return 'there are too few readings for it';
    case 'no-variation':
    case 'collinear':
      return 'the readings do not vary enough for it';
    case 'not-converged':
      return 'its equations have no solution that could be found';
    case 'not-finite':
    case 'out-of-range':
    case 'lengths-differ':
    case 'out-of-order':
      return 'a reading lies outside what it can take';
    case 'bases-differ':
    case 'humidity-differs':
    case 'materials-differ':
      return 'what it compares is not alike';
    case 'reversed':
    case 'no-front':
      return 'the readings run the other way';
    case 'unstated':
    case 'unknown-name':
      return 'the folder does not state what it needs';
  }
}
