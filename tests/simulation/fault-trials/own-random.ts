/** Random numbers of the generator's own: it shares no code with what it tests, a mistake in which would then hide itself. */
export interface Draws {
  /** In [0, 1). */
  readonly uniform: () => number;
  /** Standard normal. */
  readonly normal: () => number;
}

/**
 * Doty-Humphrey's small fast counter (sfc32, from memory), from a seed; normal values by Box and Muller's transform.
 */
export function drawsFrom(seed: number): Draws {
  let [a, b, c, counter] = [seed | 0, (seed ^ 0x9e3779b9) | 0, 0x243f6a88, 1];
  const next = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    return sum >>> 0;
  };
  // Near seeds give like numbers at first.
  for (let warm = 0; warm < 16; warm += 1) next();
  const uniform = () => next() / 4_294_967_296;
  let spare: number | undefined;
  const normal = (): number => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  return { uniform, normal };
}

/** A copy in random order (Fisher and Yates). */
export function inRandomOrder<Item>(items: readonly Item[], { uniform }: Draws): Item[] {
  const mixed = [...items];
  for (let last = mixed.length - 1; last > 0; last -= 1) {
    const other = Math.floor(uniform() * (last + 1));
    [mixed[last], mixed[other]] = [mixed[other] as Item, mixed[last] as Item];
  }
  return mixed;
}

export function rounded(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale;
}
