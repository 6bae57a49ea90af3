/** The part of the package that the tests ask for a second opinion. */
declare module 'jstat' {
  interface Cumulative<Parameters extends readonly number[]> {
    cdf(x: number, ...parameters: Parameters): number;
  }
  interface Distributions {
    readonly studentt: Cumulative<[degreesOfFreedom: number]>;
    readonly centralF: Cumulative<[above: number, below: number]>;
    readonly beta: Cumulative<[a: number, b: number]>;
    readonly gamma: Cumulative<[shape: number, scale: number]>;
    readonly binomial: Cumulative<[trials: number, probability: number]>;
    readonly tukey: Cumulative<[groups: number, degreesOfFreedom: number]>;
  }
  const package_: { readonly jStat: Distributions };
  export default package_;
}
