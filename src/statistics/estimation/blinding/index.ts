export type { ArmGuesses } from './arm-guesses.js';
export { type BangIndex, bangIndex } from './bang-index.js';
export { type JamesIndex, jamesIndex } from './james-index.js';
