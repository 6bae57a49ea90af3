const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * The least value of a function between two points, by golden sections to 1e-9 of their distance; of several valleys it finds one.
 *
 * @example leastBetween((x) => (x - 1) ** 2, 0, 3).point // 1
 */
export function leastBetween(of: (point: number) => number, from: number, to: number) {
  let [low, high] = [from, to];
  let [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [atLeft, atRight] = [of(left), of(right)];
  while (high - low > 1e-9 * (to - from)) {
    if (atLeft <= atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = of(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = of(right);
    }
  }
  return atLeft <= atRight ? { point: left, value: atLeft } : { point: right, value: atRight };
}
