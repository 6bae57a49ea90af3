import type { Core } from '../../../src/trial/index.js';
import { type Draws, rounded } from './own-random.js';

/** Standard deviation of one weighing; the display steps by 0.01 g. */
const BALANCE_G = 0.006;
/** No core of a wall in a building is dried below this by the air. */
export const DRIEST = 0.3;

type Masses = Pick<Core, 'container_g' | 'wet_g' | 'dry_g'> & { readonly wet_g: number; readonly dry_g: number };

/** What the balance showed of a core that holds so much water, in percent of its dry mass. */
export function weighed(held: number, draws: Draws): Masses {
  const weigh = (mass: number) => rounded(mass + BALANCE_G * draws.normal(), 2);
  const moisture = Math.max(DRIEST, held);
  const container = 24 + 8 * draws.uniform();
  const dry = 38 + 26 * draws.uniform();
  return {
    container_g: weigh(container),
    wet_g: weigh(container + dry * (1 + moisture / 100)),
    dry_g: weigh(container + dry),
  };
}

/** The mass of the same core at a stated humidity. */
export function weighedHumid({ container_g, dry_g }: Masses, hygroscopic: number, draws: Draws): number {
  return rounded(dry_g + ((dry_g - container_g) * hygroscopic) / 100 + BALANCE_G * draws.normal(), 2);
}

/** Moisture of a core in percent by mass, dry basis. */
export function moistureOf({ container_g, wet_g = Number.NaN, dry_g = Number.NaN }: Core): number {
  return (100 * (wet_g - dry_g)) / (dry_g - container_g);
}

/** The same core, had it held so many points more. */
export function moistened(core: Core, points: number): Core {
  const { container_g, dry_g = Number.NaN } = core;
  const moisture = Math.max(DRIEST, moistureOf(core) + points);
  return { ...core, wet_g: rounded(dry_g + ((dry_g - container_g) * moisture) / 100, 2) };
}
