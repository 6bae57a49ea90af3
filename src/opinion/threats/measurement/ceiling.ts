import { reasonInWords } from '../../../labels/index.js';
import { countInWords, numberInWords, quantityInWords } from '../../../words/quantity.js';
import { couldNotLook, found, notFound, type Search } from '../threat.js';
import { unitOf } from '../threat-words.js';

/** A fall that evaporation cannot have brought about. */
export const largerThanCeiling: Search = {
  code: 'larger-than-ceiling',
  domain: 'measurement',
  name: 'A fall that the air could not take',
  lookedFor: 'walls lost more water than the air could take up in the time',
  direction: 'towards the claim',
  remedy: 'Sample through the whole thickness of the wall, with the same instrument throughout, and record the air.',
  restsOn: ['air', 'walls'],
  look: ({ facts }) => {
    const { implied, beyondCeiling } = facts.drying;
    if (implied.kind === 'not-computed')
      return couldNotLook(
        'thickness of the walls, and an outcome in percent by mass',
        `${capital(reasonInWords(implied.reason))}.`,
      );
    const [arm] = implied.arms.toSorted(
      (one, other) => other.evaporation_mm_d / other.air_mm_d - one.evaporation_mm_d / one.air_mm_d,
    );
    if (arm === undefined) return undefined;
    const density = implied.walls.every(({ isDensityStated }) => isDensityStated)
      ? 'as stated'
      : 'assumed where not stated';
    const text = `The walls of arm ${arm.arm} must have evaporated ${numberInWords(arm.evaporation_mm_d)} mm of water a day, where the air could take ${numberInWords(arm.air_mm_d)}. That is a mean of ${countInWords(arm.walls, 'wall')}, with the transfer coefficient from memory and the density ${density}.`;
    const measure = { value: arm.evaporation_mm_d, unit: 'mm of water a day' };
    const [first] = beyondCeiling;
    if (first === undefined) return notFound(text, { measure });
    return found(
      'serious',
      `${text} ${first.wall} fell by ${quantityInWords(first.lost, unitOf(facts))} in ${numberInWords(first.days, 0)} days, where ${quantityInWords(first.ceiling, unitOf(facts))} is the most. Samples from the surface alone, another instrument or another face would explain it; drying of the whole wall does not.`,
      { measure },
    );
  },
};

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
