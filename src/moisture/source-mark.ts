/**
 * How far a figure of the trade can be trusted: `seen` in a public copy or abstract, `from memory` (check the document
 * before it is quoted), or `common practice` without a source.
 */
export type SourceMark = 'seen' | 'from memory' | 'common practice';

/** A limit with its mark, for a report to print where the limit decides. */
export interface MarkedLimit {
  readonly value: number;
  readonly mark: SourceMark | 'our convention';
}

/** Where a figure of the trade comes from, and how it was come by. */
export interface Source {
  readonly document: string;
  readonly mark: SourceMark;
}
