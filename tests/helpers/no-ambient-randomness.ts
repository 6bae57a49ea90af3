// Randomness is an argument everywhere; ambient randomness in our own code fails the test that meets it.
const ambientRandom = Math.random;

Math.random = () => {
  const caller = new Error().stack?.split('\n')[2] ?? '';
  if (caller.includes('/src/')) throw new Error('Math.random was called: pass a seeded generator instead');
  return ambientRandom();
};
