import type { Link } from './document.js';

/** The annexes in their order; each stands only where it applies. */
export const annexNames = {
  walls: 'Walls and calendar',
  analyses: 'Analyses',
  robustness: 'Robustness',
  threats: 'Threats to validity',
  plan: 'The plan, sealed',
  'error-rates': 'Error rates of such a trial',
  'next-trial': 'The trial that would settle it',
  instruments: 'Instruments and moisture',
  cores: 'Cores, salts and profiles',
  air: 'Air',
  drying: 'Drying',
  wetting: 'Wetting',
  potentials: 'Potentials and currents',
  works: 'Works on the walls',
  'left-out': 'What was excluded and not used',
  photographs: 'Photographs',
  methods: 'Methods and references',
  checklist: 'Reporting checklist',
  limits: 'Limits and cautions in full',
  glossary: 'Glossary',
  provenance: 'Provenance',
} as const;

export type AnnexName = keyof typeof annexNames;

/** A link to the first of these annexes that the opinion has. */
export type See = (...annexes: readonly AnnexName[]) => Link;

/**
 * @param present the annexes that the opinion has, in their order: asked only when a letter is written down, for which annexes there are is
 *   known once all are written, and they refer to each other
 */
export function annexLetters(present: () => readonly AnnexName[]): {
  readonly letterOf: (name: AnnexName) => string;
  readonly see: See;
} {
  const letterOf = (name: AnnexName) => String.fromCharCode('A'.charCodeAt(0) + present().indexOf(name));
  return {
    letterOf,
    see(...annexes) {
      const name = () => annexes.find((one) => present().includes(one)) ?? 'provenance';
      return {
        kind: 'link',
        get text() {
          return `Annex ${letterOf(name())}`;
        },
        get to() {
          return annexId(name());
        },
      };
    },
  };
}

export function annexId(name: AnnexName): string {
  return `annex-${name}`;
}
