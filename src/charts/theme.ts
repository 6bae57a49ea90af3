/** One look for every chart: told apart by shape, by dash and by lightness, so that colour is never the only sign. */

export interface GroupStyle {
  readonly colour: string;
  readonly shape: string;
  /** The same shape as characters, for captions: before is hollow, after is filled. */
  readonly hollow: string;
  readonly filled: string;
  readonly dash: readonly number[];
}

export const ink = {
  text: '#1a1a1a',
  soft: '#555555',
  rule: '#1a1a1a',
  grid: '#dddddd',
  window: '#9a9a92',
  paper: '#ffffff',
} as const;

const fontFamily = "system-ui, 'Segoe UI', 'Helvetica Neue', Arial, sans-serif";

export const fontSize = { title: 13, label: 11 } as const;

/** Blue and orange of the Okabe–Ito set and two of their companions, darkened or lightened until they differ in grey as well. */
const groupStyles: readonly [GroupStyle, ...GroupStyle[]] = [
  { colour: '#00507d', shape: 'circle', hollow: '○', filled: '●', dash: [] },
  { colour: '#c97900', shape: 'square', hollow: '□', filled: '■', dash: [4, 2] },
  { colour: '#1f8f6d', shape: 'triangle-up', hollow: '△', filled: '▲', dash: [1.5, 2] },
  { colour: '#b86a93', shape: 'diamond', hollow: '◇', filled: '◆', dash: [6, 2, 1.5, 2] },
];

export function groupStyle(index: number): GroupStyle {
  return groupStyles[index % groupStyles.length] ?? groupStyles[0];
}

export const themeConfig = {
  // The picture carries one alternative text; a description of every mark would drown it.
  aria: false,
  font: fontFamily,
  view: { stroke: null },
  axis: {
    labelFont: fontFamily,
    titleFont: fontFamily,
    labelFontSize: fontSize.label,
    titleFontSize: fontSize.label,
    titleFontWeight: 'normal',
    labelColor: ink.text,
    titleColor: ink.text,
    domainColor: ink.soft,
    tickColor: ink.soft,
    gridColor: ink.grid,
    // Dropping or cutting labels would hang on a guess of their width, which differs between machines.
    labelOverlap: false,
    labelLimit: 0,
    titleLimit: 0,
    labelBound: false,
  },
  text: { font: fontFamily, fontSize: fontSize.label, fill: ink.text },
  title: {
    font: fontFamily,
    fontSize: fontSize.title,
    fontWeight: 600,
    color: ink.text,
    subtitleFont: fontFamily,
    subtitleFontSize: fontSize.label,
    subtitleColor: ink.soft,
    subtitleLineHeight: 15,
    lineHeight: 17,
    limit: 0,
  },
} as const;
