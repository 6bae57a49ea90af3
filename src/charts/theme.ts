/** One look for every chart: distinguished by shape, by dash and by lightness, so that colour is never the only sign. */

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

type Stops = readonly [string, string, ...string[]];

/** From pale to the first group's blue: grows darker all the way, so that it reads in grey. */
const amountStops: Stops = ['#f4f7f9', '#a9c8db', '#4f8fb5', '#00507d'];

/**
 * Orange below zero, blue above, paper at it. Orange stays the lighter, but a pale blue and an orange may be alike in grey:
 * every cell that it fills must print its sign.
 */
const changeStops: Stops = ['#c97900', '#f0cf9a', '#ffffff', '#93b9cf', '#00507d'];

/** Fill for an amount; 0 is the least and 1 the most. */
export function amountColour(share: number): string {
  return between(amountStops, share);
}

/** Fill for a change; −1 is the strongest fall, 1 the strongest rise. */
export function changeColour(share: number): string {
  return between(changeStops, (share + 1) / 2);
}

/** The ink that reads on a fill: by the lightness that eyes give to red, green and blue (ITU-R BT.601). */
export function inkOn(fill: string): string {
  const [red, green, blue] = channels(fill);
  return 0.299 * red + 0.587 * green + 0.114 * blue < 125 ? ink.paper : ink.text;
}

function between(stops: Stops, share: number): string {
  const place = Math.min(1, Math.max(0, share)) * (stops.length - 1);
  const index = Math.min(stops.length - 2, Math.floor(place));
  const [from, to] = [channels(stops[index] ?? stops[0]), channels(stops[index + 1] ?? stops[1])];
  const mixed = from.map((value, at) => Math.round(value + (place - index) * ((to[at] ?? value) - value)));
  return `#${mixed.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}

function channels(colour: string): readonly [number, number, number] {
  const at = (start: number) => Number.parseInt(colour.slice(start, start + 2), 16);
  return [at(1), at(3), at(5)];
}

export const themeConfig = {
  // The picture carries one alternative text; a description of every mark would drown it.
  aria: false,
  font: fontFamily,
  view: { stroke: null },
  // Every number is known to be one: to look for others in each layer costs time.
  mark: { invalid: null },
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
    // Dropping or cutting labels would depend on a guess of their width, which differs between machines.
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
