/**
 * One deliberate fault: a text that stands once in a file, and what it is turned into.
 *
 * @typedef {object} Mutation
 * @property {string} file of `src/`
 * @property {string} find stands exactly once in it
 * @property {string} replace
 * @property {readonly string[]} tests that should notice, as paths under `tests/`
 * @property {string} [equivalent] why nothing that the program gives can differ; such a one is not run
 */

/**
 * The mutations of one file.
 *
 * @param {string} file
 * @param {string | readonly string[]} tests
 * @param {readonly (readonly [find: string, replace: string, equivalent?: string])[]} changes
 * @returns {Mutation[]}
 */
export function mutationsOf(file, tests, changes) {
  const own = typeof tests === 'string' ? [tests] : tests;
  return changes.map(([find, replace, equivalent]) => ({
    ...{ file, find, replace, tests: own },
    ...(equivalent === undefined ? {} : { equivalent }),
  }));
}
