import type { Protocol, Windows } from '../../trial/index.js';
import { protocolFile } from '../folder/table-layouts.js';
import { plainNaming, type TableNaming } from '../folder/table-naming.js';

/** What could be made out of a protocol, so that the tables can be checked against it even where parts of it are wrong. */
export interface ProtocolFindings {
  /** The file or sheet that holds the plan. */
  readonly file: string;
  /** What the plan says of headings and sheets under other names. */
  readonly naming: TableNaming;
  /** Whether the plan says that nobody wrote down where on its wall a core was drilled. */
  readonly placesUnknown: boolean;
  /** Present only when nothing at all was wrong. */
  readonly protocol?: Protocol;
  readonly arms?: readonly NamedArm[];
  readonly instruments?: readonly NamedInstrument[];
  readonly outcome?: Partial<Protocol['outcome']>;
  readonly windows?: Windows;
  readonly method?: Protocol['allocation']['method'];
  readonly unit?: Protocol['allocation']['unit'];
  readonly compare?: Protocol['compare'];
  /** Notes a problem at a key of the protocol that only the tables bring to light. */
  readonly refuseKey: (key: string, found: string, expected: string) => void;
}

export type NamedArm = Pick<Protocol['arms'][number], 'arm'> & Partial<Protocol['arms'][number]>;
export type NamedInstrument = Pick<Protocol['instruments'][number], 'instrument'> &
  Partial<Protocol['instruments'][number]>;

/** Of a protocol that is not there or no JSON: why, has been said. */
export const noFindings: ProtocolFindings = {
  file: protocolFile,
  naming: plainNaming,
  placesUnknown: false,
  refuseKey: () => undefined,
};
