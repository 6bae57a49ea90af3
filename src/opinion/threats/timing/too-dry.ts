import { limits } from '../../../findings/limits.js';
import { differenceInWords, listInWords } from '../../../words/quantity.js';
import { isNull } from '../facts.js';
import { found, notFound, type Search } from '../threat.js';
import { unitOf } from '../threat-words.js';

export const wallsTooDryToLose: Search = {
  code: 'walls-too-dry',
  domain: 'departures-and-timing',
  name: 'Walls too dry to lose the margin',
  lookedFor: 'the walls held enough water to lose the margin',
  direction: 'away from the claim',
  remedy: 'Take walls into the trial that hold at least twice the margin above what the air keeps in them.',
  look: ({ facts, numbers: { tooDry } }) => {
    if (tooDry === undefined) return undefined;
    const { treated } = tooDry.bySide;
    if (treated.walls === 0) return undefined;
    const share = treated.tooDry / treated.walls;
    const text = `${treated.tooDry} of ${treated.walls} treated walls held less than the margin of ${differenceInWords(tooDry.margin, unitOf(facts))} above their air-dry state; on average all walls held ${differenceInWords(tooDry.room, unitOf(facts))}.`;
    const measure = { value: share, unit: 'share of treated walls' };
    if (share < limits.tooDryShare.value) return notFound(text, { measure });
    return found(
      isNull(facts) ? 'serious' : 'minor',
      `${text} Such walls (${listInWords(tooDry.tooDry)}) cannot show a worthwhile effect, whatever the treatment does to wetter ones.`,
      { measure },
    );
  },
};
