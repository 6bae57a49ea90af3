import type { SaltIon, SaltSchemeName } from '../../trial/index.js';
import { checkNotNegative } from '../checked-quantity.js';
import type { Source } from '../source-mark.js';

export type SaltLoadClass = 'low' | 'medium' | 'high';

export type SaltPurpose = 'renovation-plasters' | 'desalination' | 'drying-out';

/** Limits in percent by mass of the ion: below the first low, above the second high. */
export interface SaltScheme {
  readonly name: string;
  readonly limits_pct: Readonly<Record<SaltIon, readonly [number, number]>>;
  /** What the scheme was made for. */
  readonly purpose: SaltPurpose;
  readonly source: Source;
}

/** The schemes disagree by about five times, so a class without its scheme means nothing. */
export const saltSchemes = {
  'wta-2-6-99': {
    name: 'WTA 2-6-99/D',
    limits_pct: { chloride: [0.2, 0.5], nitrate: [0.1, 0.3], sulfate: [0.5, 1.5] },
    purpose: 'renovation-plasters',
    source: { document: 'WTA 2-6-99/D, as quoted by a trade page (document not read)', mark: 'seen' },
  },
  'wta-3-13-01': {
    name: 'WTA 3-13-01/D',
    limits_pct: { chloride: [0.03, 0.1], nitrate: [0.05, 0.15], sulfate: [0.1, 0.25] },
    purpose: 'desalination',
    source: {
      document: 'WTA 3-13-01/D, as quoted by a public encyclopaedia of salts (document not read)',
      mark: 'seen',
    },
  },
  'oenorm-b-3355-1': {
    name: 'OeNORM B 3355-1',
    limits_pct: { chloride: [0.03, 0.1], nitrate: [0.05, 0.15], sulfate: [0.1, 0.25] },
    purpose: 'drying-out',
    source: { document: 'OeNORM B 3355-1', mark: 'from memory' },
  },
} as const satisfies Readonly<Record<SaltSchemeName, SaltScheme>>;

export interface SaltLoad {
  readonly scheme: SaltSchemeName;
  readonly ion: SaltIon;
  readonly content_pct: number;
  readonly class: SaltLoadClass;
  readonly source: Source;
}

/**
 * The class of a salt content by a named scheme. There is no default scheme. A content at a limit is medium.
 *
 * @throws MoistureError `not-finite`; `out-of-range` for a negative content
 * @example saltLoad('wta-2-6-99', 'chloride', 0.3).class // 'medium'; by 'wta-3-13-01' it is 'high'
 */
export function saltLoad(scheme: SaltSchemeName, ion: SaltIon, content_pct: number): SaltLoad {
  checkNotNegative('saltLoad', `${ion} content`, content_pct, '%');
  const { limits_pct, source } = saltSchemes[scheme];
  const [low, high] = limits_pct[ion];
  const loadClass = content_pct < low ? 'low' : content_pct > high ? 'high' : 'medium';
  return { scheme, ion, content_pct, class: loadClass, source };
}
