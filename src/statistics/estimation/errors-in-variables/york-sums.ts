/** Pairs as columns about their centre, those of a group side by side. */
export interface YorkColumns {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly varianceX: Float64Array;
  readonly varianceY: Float64Array;
  readonly covariance: Float64Array;
}

/** What York's equations need of the pairs at one slope; sums of parts add up, so a part can be taken out. */
export type YorkSums = Float64Array;

const SUMS = 10;

/** Adds the sums over the pairs `from` to `to` (not included) at a slope. */
export function addYorkSums(sums: YorkSums, columns: YorkColumns, slope: number, from: number, to: number): void {
  const { x: xs, y: ys, varianceX, varianceY, covariance } = columns;
  let [w, wx, wr, wxr, wxx, q, qr, qrr, qx, qxr] = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = from; i < to; i++) {
    const x = xs[i] as number;
    const r = (ys[i] as number) - slope * x;
    const vx = varianceX[i] as number;
    const c = covariance[i] as number;
    const bend = slope * vx - c;
    const weight = 1 / ((varianceY[i] as number) + slope * (bend - c));
    const tilt = weight * weight * bend;
    w += weight;
    wx += weight * x;
    wr += weight * r;
    wxr += weight * x * r;
    wxx += weight * x * x;
    q += tilt;
    qr += tilt * r;
    qrr += tilt * r * r;
    qx += tilt * x;
    qxr += tilt * x * r;
  }
  const added = [w, wx, wr, wxr, wxx, q, qr, qrr, qx, qxr];
  for (let k = 0; k < SUMS; k++) sums[k] = (sums[k] as number) + (added[k] as number);
}

export function noYorkSums(): YorkSums {
  return new Float64Array(SUMS);
}

/** Where a slope stands: York's equation is `excess` = 0, and his next slope is `excess / spread` further on. */
export interface YorkState {
  /** Σ Wβ(V − bU), minus half the derivative of the weighted sum of squares. */
  readonly excess: number;
  /** Σ WβU. */
  readonly spread: number;
  readonly weight: number;
  /** Weighted mean of x and of y − slope x, about the centre. */
  readonly meanX: number;
  readonly level: number;
}

export function yorkState(sums: YorkSums): YorkState {
  const [w = 0, wx = 0, wr = 0, wxr = 0, wxx = 0, q = 0, qr = 0, qrr = 0, qx = 0, qxr = 0] = sums;
  const meanX = wx / w;
  const level = wr / w;
  return {
    excess: wxr - level * wx + qrr - 2 * level * qr + level * level * q,
    spread: wxx - meanX * wx + qxr - meanX * qr - level * qx + level * meanX * q,
    weight: w,
    meanX,
    level,
  };
}
