import type { ChartSpecification } from '../charts/index.js';

/**
 * The report before it is HTML or Markdown. It holds plain text only, never markup: each writer escapes every string, so
 * that both files say the same and nothing from a trial folder can act.
 */
export interface ReportDocument {
  readonly kicker: string;
  readonly title: Inline;
  /** What stands at the foot of every sheet beside the number of the page. */
  readonly foot?: string;
  readonly sections: readonly Section[];
}

export interface Section {
  readonly id: string;
  readonly heading: string;
  readonly blocks: readonly Block[];
  /** Of an opinion: the page for whoever asked, the pages for a professional, or an annex. */
  readonly part?: 'first' | 'further' | 'annex';
  /** On paper it goes on where the part before it ends, on the same sheet. */
  readonly flows?: true;
}

export type Inline =
  | string
  | { readonly kind: 'strong'; readonly text: string }
  | { readonly kind: 'code'; readonly text: string }
  /** Words that the trial folder brought: set apart so that their direction of writing cannot spill over. */
  | { readonly kind: 'quoted'; readonly text: string }
  /** To a section of the same document. */
  | Link
  /** A line to fill in by hand, for what nobody stated. */
  | { readonly kind: 'blank' };

export interface Link {
  readonly kind: 'link';
  readonly text: string;
  /** The `id` of a section. */
  readonly to: string;
}

export type Line = readonly Inline[];

export type Block =
  /** `deep`: under another subheading. */
  | { readonly kind: 'subheading'; readonly text: string; readonly deep?: true }
  | { readonly kind: 'paragraph'; readonly line: Line; readonly role?: 'question' | 'answer' }
  | { readonly kind: 'list'; readonly items: readonly Line[] }
  | { readonly kind: 'command'; readonly text: string }
  | { readonly kind: 'terms'; readonly items: readonly Term[] }
  | { readonly kind: 'contents'; readonly links: readonly Link[] }
  | Photo
  | Table
  | Figure;

/** A term with what is said of it. */
export interface Term {
  readonly term: string;
  readonly line: Line;
}

/** A picture that came with the trial; only JPEG and PNG. */
export interface Photo {
  readonly kind: 'photograph';
  readonly bytes: Uint8Array;
  readonly caption: string;
}

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

interface FigureChart {
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

export function link(text: string, to: string): Link {
  return { kind: 'link', text, to };
}

export const blank: Inline = { kind: 'blank' };
