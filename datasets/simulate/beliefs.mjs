/** What each person thought of each wall when asked at the end: a guess that the truth does not steer. */
export function askBeliefs(random, { walls, date, arms, people }) {
  return walls.flatMap((wall) =>
    people(wall).map(({ person, role }) => {
      const believed_arm = random.pick([...arms, ...arms, 'unknown']);
      return { date, person, role, wall: wall.wall, believed_arm, why: believed_arm === 'unknown' ? '' : 'a guess' };
    }),
  );
}
