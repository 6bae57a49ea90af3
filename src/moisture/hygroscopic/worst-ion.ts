import { type Recorded, type SaltContents, type SaltIon, type SaltSchemeName, saltIons } from '../../trial/index.js';
import { type SaltLoadClass, saltLoad, saltSchemes } from './salt-load.js';

/** `unknown`: below a detection limit that lies above the lowest class. */
export type SaltClass = SaltLoadClass | 'unknown';

/** The class of a sample as a whole. */
export interface WorstIon {
  readonly class: SaltClass;
  /** The ions of that class; none where it is unknown. */
  readonly ions: readonly SaltIon[];
  readonly byIon: Readonly<Partial<Record<SaltIon, SaltClass>>>;
}

const lowestFirst: readonly SaltLoadClass[] = ['low', 'medium', 'high'];

/**
 * The class of a sample by its worst ion. A content below the detection limit is `low` where the limit is not above that of the lowest
 * class, else nobody knows it; then the sample is `high` where another ion is, and unknown otherwise. Ions that were not analysed do not
 * count: a class from fewer ions is a least class.
 *
 * @returns undefined where no ion was analysed
 * @throws MoistureError `not-finite`; `out-of-range` for a negative content
 * @example
 * const measured = (value) => ({ kind: 'measured', value });
 * worstIon('wta-2-6-99', { chloride: measured(0.3), nitrate: measured(0.4), sulfate: { kind: 'missing' } }).class // 'high'
 * @source rating by the worst ion: WTA 4-5-99/D (from memory)
 */
export function worstIon(scheme: SaltSchemeName, contents: SaltContents): WorstIon | undefined {
  const byIon = new Map<SaltIon, SaltClass>();
  for (const ion of saltIons) {
    const found = classOf(scheme, ion, contents[ion]);
    if (found !== undefined) byIon.set(ion, found);
  }
  if (byIon.size === 0) return undefined;
  const worst = worstClass([...byIon.values()]);
  return {
    class: worst,
    ions: worst === 'unknown' ? [] : [...byIon].flatMap(([ion, each]) => (each === worst ? [ion] : [])),
    byIon: Object.fromEntries(byIon),
  };
}

/**
 * The worst of several classes: `high` whatever else is unknown; `unknown` where an unknown one may be worse than the others.
 *
 * @example worstClass(['low', 'unknown', 'medium']) // 'unknown'
 */
export function worstClass(classes: readonly SaltClass[]): SaltClass {
  const known = classes.flatMap((each) => (each === 'unknown' ? [] : [lowestFirst.indexOf(each)]));
  const worst = lowestFirst[Math.max(...known)] ?? 'unknown';
  return worst !== 'high' && classes.includes('unknown') ? 'unknown' : worst;
}

function classOf(scheme: SaltSchemeName, ion: SaltIon, content: Recorded): SaltClass | undefined {
  switch (content.kind) {
    case 'missing':
      return undefined;
    case 'measured':
      return saltLoad(scheme, ion, content.value).class;
    case 'below-detection':
      return content.limit <= saltSchemes[scheme].limits_pct[ion][0] ? 'low' : 'unknown';
  }
}
