import type { CauseSign, MoistureCause } from '../../moisture/index.js';

/** What could make a pattern over height, at the beginning of a line. */
export const causeNames: Readonly<Record<MoistureCause, string>> = {
  'rising-damp': 'Rising damp',
  'hygroscopic-salts': 'Hygroscopic salts',
  condensation: 'Condensation',
  penetration: 'Penetration',
  leak: 'Plumbing or roof leak',
};

/** What else to look at to distinguish a cause from the others. */
export const furtherLooks: Readonly<Record<MoistureCause, string>> = {
  'rising-damp':
    'ground levels, drains and splash; whether inner and outer face and the neighbouring walls show it too',
  'hygroscopic-salts': 'salt analysis by height; readings in a dry and in a humid season',
  condensation: 'surface temperature against dew point over weeks; whether the moisture is only near the surface',
  penetration: 'weather side, defects of joints and render, readings after driving rain',
  leak: 'pipes, gutters and roof; whether it is local along the wall',
};

/** To be printed wherever causes are. */
export const causesCaution =
  'These are possibilities that fit the pattern over height, not a diagnosis. No pattern settles that it is rising damp, and several causes may act together.';

/**
 * What of the pattern speaks for a cause, in words that could end a sentence.
 *
 * @example causeSignInWords({ sign: 'foot-coldest' }) // 'the foot of a wall is often its coldest part'
 */
export function causeSignInWords(because: CauseSign): string {
  return because.sign === 'salts-peak'
    ? `hygroscopic moisture peaks at ${because.height_mm} mm, as a band of salts would make it`
    : signs[because.sign];
}

const signs: Readonly<Record<Exclude<CauseSign['sign'], 'salts-peak'>, string>> = {
  'wettest-at-foot': 'more liquid water at the base than higher up fits a supply from the ground',
  'foot-splashed': 'splash, high ground or a leaking drain wets the foot of a wall too',
  'foot-coldest': 'the foot of a wall is often its coldest part',
  'wettest-at-head': 'more liquid water higher up fits a supply from above',
  'rain-runs-down': 'rain entering higher up runs down inside',
  'wet-over-whole-face': 'an excess alike at all heights fits wetting over the whole face',
  'cold-throughout': 'an excess alike at all heights fits a surface that is cold throughout',
  'enters-at-one-height': 'an excess at one height fits water that enters there',
  'fitting-at-one-height': 'an excess at one height fits a pipe or a fitting there',
  'dried-from-below': 'where a wall has begun to dry from below, the excess is left higher up',
  'salt-band-left-behind':
    'a band of salts is what water that rose and evaporated there, now or long ago, leaves behind',
  'no-excess': 'no clear excess over what humid air alone would give: no liquid supply is needed',
};
