import { nearestName } from '../nearest-name.js';
import { alternatives } from '../quoted.js';

/** Names that other tables may refer to, with what to say of a name that is not among them. */
export interface KnownNames {
  has(name: string): boolean;
  /** The one name that differs in nothing but capitals and blanks. */
  inOtherCase(name: string): string | undefined;
  readonly expected: string;
  nearest(name: string): string | undefined;
}

const mostSpelledOut = 8;

// Slips of the hand are few, and looking for what was meant takes time: beyond, a name is wrong and that is that.
const mostSuggestions = 500;
const mostNames = 2000;

/**
 * @param what - for instance `an arm of protocol.json`.
 * @example knownNames('an arm of protocol.json', ['treated', 'control']).expected // 'an arm of protocol.json: control or treated'
 */
export function knownNames(what: string, names: Iterable<string>): KnownNames {
  const all = new Set(names);
  const byPlain = new Map<string, string | undefined>();
  for (const name of all) byPlain.set(withoutCase(name), byPlain.has(withoutCase(name)) ? undefined : name);
  // A name that is wrong is often wrong in thousands of rows.
  const nearest = new Map<string, string | undefined>();
  return {
    has: (name) => all.has(name),
    inOtherCase: (name) => byPlain.get(withoutCase(name)),
    expected: all.size <= mostSpelledOut ? `${what}: ${alternatives([...all])}` : what,
    nearest(name) {
      if (all.size > mostNames || (nearest.size >= mostSuggestions && !nearest.has(name))) return undefined;
      if (!nearest.has(name)) nearest.set(name, nearestName(name, all));
      return nearest.get(name);
    },
  };
}

function withoutCase(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLowerCase();
}
