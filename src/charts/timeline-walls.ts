import { groupBy } from '../plain/group-by.js';
import { displayText } from '../words/display-text.js';
import { countOf } from './count-of.js';
import { type Box, boxes, levels, type PlacedMarks, type PlacedText, symbols, texts, uprights } from './marks.js';
import { shortenMiddle } from './text-layout.js';
import { fontSize, groupStyle, ink } from './theme.js';

export interface TimelineArm {
  readonly label: string;
  /** Which of the theme's styles; so that an arm looks the same in every chart. */
  readonly style: number;
  readonly walls: readonly TimelineWall[];
}

export interface TimelineWall {
  readonly wall: string;
  /** Days on which it was read but not cored. */
  readonly read: readonly string[];
  readonly cored: readonly string[];
  /** Days of visits at which most walls were read, and this one was not. */
  readonly missed: readonly string[];
  readonly treatedOn?: string;
  /** Its own before and after window. */
  readonly windows: readonly { readonly from: string; readonly to: string }[];
}

interface Sizes {
  readonly top: number;
  /** Room for names beside the plot. */
  readonly left: number;
  readonly plotWidth: number;
}

/** With more walls, those of an arm that were visited alike share a row. */
const mostRows = 40;
const headingHeight = 22;
const rowHeight = 14;

interface LaidRow extends TimelineWall {
  readonly name: string;
  readonly style: number;
  readonly y: number;
}

/** A row a wall under the name of its arm, and how high they are together. */
export function timelineWalls(
  arms: readonly TimelineArm[],
  place: (day: string) => number,
  { top, left, plotWidth }: Sizes,
): { readonly marks: readonly PlacedMarks[]; readonly height: number } {
  const isMany = arms.reduce((count, { walls }) => count + walls.length, 0) > mostRows;
  const rows: LaidRow[] = [];
  const headings: PlacedText[] = [];
  let bottom = top;
  for (const { label, style, walls } of arms) {
    const own = isMany ? visitedAlike(walls) : walls.map((wall) => ({ ...wall, name: displayText(wall.wall) }));
    const name = shortenMiddle(displayText(label), plotWidth / 2, fontSize.label);
    headings.push({
      text: `${groupStyle(style).filled} ${name}, ${countOf(walls.length, 'wall')}`,
      x: 2 - left,
      y: bottom + headingHeight / 2 + 2,
    });
    const first = bottom + headingHeight;
    rows.push(...own.map((row, at) => ({ ...row, style, y: first + (at + 0.5) * rowHeight })));
    bottom = first + own.length * rowHeight;
  }
  return {
    height: bottom - top,
    marks: [
      boxes(
        rows.flatMap((row) => windowBoxes(row, place)),
        { fill: windowFill },
      ),
      guides(rows, plotWidth),
      ...marksOfRows(rows, place),
      texts(headings, { bold: true }),
      texts(rows.map(({ name, y }) => ({ text: shortenMiddle(name, left - 12, fontSize.label), x: 2 - left, y }))),
    ],
  };
}

/** One row for walls with the same days, under the name of the only one or their count. */
function visitedAlike(walls: readonly TimelineWall[]): readonly (TimelineWall & { readonly name: string })[] {
  const alike = groupBy(walls, ({ read, cored, missed, treatedOn, windows }) =>
    JSON.stringify([read, cored, missed, treatedOn, windows]),
  );
  return [...alike.values()].map(([first, ...others]) => {
    const name = displayText(first.wall);
    return { ...first, name: others.length === 0 ? name : `${name} +${others.length}` };
  });
}

const windowFill = '#e4e4de';

function windowBoxes({ windows, y }: LaidRow, place: (day: string) => number): readonly Box[] {
  return windows.map(({ from, to }) => {
    const x = place(from);
    return { x, x2: Math.max(place(to), x + 2), y: y - rowHeight / 2, y2: y + rowHeight / 2 };
  });
}

function guides(rows: readonly LaidRow[], plotWidth: number): PlacedMarks {
  return levels(
    rows.map(({ y }) => ({ y, x: 0, x2: plotWidth })),
    { stroke: '#cfcfc8', width: 0.5 },
  );
}

function marksOfRows(rows: readonly LaidRow[], place: (day: string) => number): readonly PlacedMarks[] {
  const on = (daysOf: (row: LaidRow) => readonly string[], own = rows) =>
    own.flatMap((row) => daysOf(row).map((day) => ({ wall: row.name, day, x: place(day), y: row.y })));
  const read = on((row) => row.read);
  const missed = on((row) => row.missed);
  const treated = on(({ treatedOn }) => (treatedOn === undefined ? [] : [treatedOn]));
  const styles = [...new Set(rows.map(({ style }) => style))];
  const width = 1;
  return [
    uprights(read.map((each) => ({ ...each, y: each.y - 4, y2: each.y + 4 }))),
    ...styles.map((style) => {
      const { shape, colour } = groupStyle(style);
      const cored = on(
        (row) => row.cored,
        rows.filter((row) => row.style === style),
      );
      return symbols(cored, { shape, fill: colour, stroke: colour, width, size: 30 });
    }),
    symbols(missed, { shape: 'circle', fill: ink.paper, stroke: ink.text, width, size: 34 }),
    symbols(treated, { shape: 'triangle-down', fill: ink.text, stroke: ink.paper, width, size: 64 }),
  ];
}
