/**
 * Pairs of like walls. What a pair shares (house, soil, exposure) spreads more than what sets its two walls apart.
 * A coin decides inside each pair which wall is treated.
 *
 * `level` is a wall's own moisture in per cent by mass over all its stations; `drift` is what its own circumstances add
 * from the before to the after window, whatever the arm.
 */
export function pairedWalls(random, { pairs, arms, site, material, thickness_mm, treatedOn, level, spread }) {
  return Array.from({ length: pairs }, (_, index) => {
    const shared = level + random.normal(spread.pairs);
    const treatedFirst = random.coin();
    return [0, 1].map((member) => ({
      wall: wallName(index * 2 + member + 1),
      arm: (member === 0) === treatedFirst ? arms.treated : arms.untreated,
      block: `P${twoDigits(index + 1)}`,
      site: `${site} ${twoDigits(index + 1)}`,
      material,
      thickness_mm: random.pick(thickness_mm),
      treatedOn: treatedOn[index % treatedOn.length],
      level: shared + random.normal(spread.withinPair),
      drift: random.normal(spread.drift),
    }));
  }).flat();
}

export function wallName(number) {
  return `W${twoDigits(number)}`;
}

function twoDigits(number) {
  return String(number).padStart(2, '0');
}

/** The same heights and depths on each wall; every place has its own lasting difference from its wall. */
export function stationsOf(random, walls, { heights, depths, spread }) {
  return walls.flatMap((wall) =>
    heights.flatMap(({ name, height_mm, offset }) =>
      depths.map((depth) => ({
        station: `${wall.wall}-${name}-${depth.depth_mm}`,
        wall: wall.wall,
        height: name,
        height_mm,
        depth_mm: depth.depth_mm,
        offset: offset + depth.offset + random.normal(spread),
      })),
    ),
  );
}

export function wallsTable(walls) {
  return walls.map(({ wall, arm, block, site, material, thickness_mm, treatedOn }) => {
    return { wall, arm, block, site, material, thickness_mm, treated_on: treatedOn };
  });
}

export function stationsTable(stations) {
  return stations.map(({ station, wall, height_mm, depth_mm }) => ({ station, wall, height_mm, depth_mm }));
}
