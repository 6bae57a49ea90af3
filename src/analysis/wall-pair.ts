import type { PlacedWall, WallChange } from './wall-change.js';

export interface Pair<W extends PlacedWall = WallChange> {
  readonly block: string;
  readonly treated: W;
  readonly untreated: W;
}
