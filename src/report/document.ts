import type { ChartSpecification } from '../charts/index.js';

/**
 * The report before it is HTML or Markdown. It holds plain text only, never markup: each writer escapes every string, so
 * that both files say the same and nothing from a trial folder can act.
 */
export interface ReportDocument {
  readonly kicker: string;
  readonly title: Inline;
  readonly sections: readonly Section[];
}

export interface Section {
  readonly id: string;
  readonly heading: string;
  readonly blocks: readonly Block[];
}

export type Inline =
  | string
  | { readonly kind: 'strong'; readonly text: string }
  | { readonly kind: 'code'; readonly text: string }
  /** Words that the trial folder brought: set apart so that their direction of writing cannot spill over. */
  | { readonly kind: 'quoted'; readonly text: string };

export type Line = readonly Inline[];

export type Block =
  | { readonly kind: 'subheading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly line: Line; readonly role?: 'question' | 'answer' }
  | { readonly kind: 'list'; readonly items: readonly Line[] }
  | { readonly kind: 'command'; readonly text: string }
  | Table
  | Figure;

export interface Table {
  readonly kind: 'table';
  readonly caption: string;
  readonly columns: readonly Column[];
  /** The first cell of each row is its header. */
  readonly rows: readonly (readonly Line[])[];
}

export interface Column {
  readonly header: string;
  /** `number`: to the right and never broken; `whole`: never broken; `prose`: wide enough for sentences. */
  readonly look?: 'number' | 'whole' | 'prose';
}

export interface Figure {
  readonly kind: 'figure';
  readonly caption: string;
  /** Side by side where there is room. */
  readonly charts: readonly FigureChart[];
}

export interface FigureChart {
  readonly wide: ChartSpecification;
  /** For a phone; absent where the wide one is narrow enough. */
  readonly narrow?: ChartSpecification;
  readonly description: string;
}

export function paragraph(...line: Line): Block {
  return { kind: 'paragraph', line };
}

export function strong(text: string): Inline {
  return { kind: 'strong', text };
}

export function code(text: string): Inline {
  return { kind: 'code', text };
}

export function quoted(text: string): Inline {
  return { kind: 'quoted', text };
}
