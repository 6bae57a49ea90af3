import { formatStated } from '../words/format-number.js';
import { type Domain, placeIn } from './frame.js';
import { type PlacedMarks, texts, upright } from './marks.js';
import { estimatedWidth } from './text-layout.js';
import { fontSize } from './theme.js';

/** What a difference is held against. */
export interface HeldAgainst {
  /** Which sign is good for the treated walls. */
  readonly better: 'lower' | 'higher';
  /** Positive; absent when none was stated. */
  readonly margin?: number;
}

export function onBetterSide({ better }: HeldAgainst, margin: number): number {
  return better === 'lower' ? -margin : margin;
}

export function signedMargin(against: HeldAgainst): string {
  return formatStated(onBetterSide(against, against.margin ?? 0));
}

/** Room that the words over the lines need, above what is drawn. */
export function roomOfLines({ margin }: HeldAgainst): number {
  return margin === undefined ? 20 : 36;
}

/** Lines at zero and at the margin from top to bottom, each with its words over it. */
export function zeroAndMargin(against: HeldAgainst, domain: Domain, height: number, plotWidth: number): PlacedMarks[] {
  const place = placeIn(domain, plotWidth);
  const zero = place(0);
  const lower = against.better === 'lower';
  const top = against.margin === undefined ? 2 : 18;
  const words = '0: no difference';
  const width = estimatedWidth(words, fontSize.label);
  // On the side away from the margin's line, so that neither line runs through the other's words; else where there is room.
  const isRight = lower ? zero + 4 + width <= plotWidth : zero - 4 - width < 0;
  const zeroLine = [
    upright(zero, top, height),
    texts([{ text: words, x: isRight ? zero + 4 : zero - 4, y: top + 6 }], { align: isRight ? 'left' : 'right' }),
  ];
  if (against.margin === undefined) return zeroLine;
  const margin = place(onBetterSide(against, against.margin));
  return [
    ...marginLine({ x: margin, y2: height, text: `margin ${signedMargin(against)}: worthwhile beyond`, plotWidth }),
    ...zeroLine,
  ];
}

/** A dashed line with its words in the first row above the plot. */
export function marginLine(line: {
  readonly x: number;
  readonly y2: number;
  readonly text: string;
  readonly plotWidth: number;
}): PlacedMarks[] {
  const { x: place, y2, text, plotWidth } = line;
  const width = estimatedWidth(text, fontSize.label);
  // Right of its line where there is room, else left of it, else as far right as the plot goes.
  const [right, left] = [place + 4, place - 4 - width];
  const x = right + width <= plotWidth ? right : left >= 0 ? left : Math.max(0, plotWidth - width);
  // Where the words had to move over their own line, it begins below them.
  const start = x === right || x === left ? 2 : 16;
  return [upright(place, start, y2, { dash: [5, 3] }), texts([{ text, x, y: 8 }])];
}

/** Which way is good, below the axis. */
export function directions({ better }: HeldAgainst, y: number, plotWidth: number): PlacedMarks[] {
  const [left, right] = better === 'lower' ? ['better', 'worse'] : ['worse', 'better'];
  return [
    texts([{ text: `← ${left} for the treated`, x: 0, y }], { soft: true }),
    texts([{ text: `${right} for the treated →`, x: plotWidth, y }], { soft: true, align: 'right' }),
  ];
}
