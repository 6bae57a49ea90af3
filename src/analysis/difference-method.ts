export type DifferenceMethod = 'welch' | 'paired-blocks' | 'block-model';
