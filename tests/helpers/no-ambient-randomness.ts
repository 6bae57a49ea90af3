// Randomness is an argument everywhere; ambient randomness in our own code fails the test that meets it.
const ownSources = new URL('../../src/', import.meta.url).href;
const isGuarded = Symbol.for('tests/helpers/no-ambient-randomness');

// This runs before every test file, and a worker keeps what the one before has set.
if (!(isGuarded in Math)) guard(Math.random);

function guard(ambientRandom: () => number): void {
  const guarded = () => {
    if (callerOfRandom().startsWith(ownSources))
      throw new Error('Math.random was called: pass a seeded generator instead');
    return ambientRandom();
  };
  Object.assign(Math, { random: guarded, [isGuarded]: true });
}

/** The file alone: a whole stack takes a thousand times as long to write out as a number to draw. */
function callerOfRandom(): string {
  const { prepareStackTrace, stackTraceLimit } = Error;
  Error.stackTraceLimit = 3;
  Error.prepareStackTrace = (_, [, , caller]) => caller?.getFileName() ?? '';
  const { stack } = new Error();
  Object.assign(Error, { prepareStackTrace, stackTraceLimit });
  return String(stack);
}
