/** The few functions of jstat used as a second opinion. */
declare module 'jstat' {
  interface TwoParameters {
    cdf(x: number, a: number, b: number): number;
    inv(p: number, a: number, b: number): number;
  }
  export const jStat: {
    readonly beta: TwoParameters;
    readonly normal: TwoParameters;
    readonly weibull: TwoParameters & {
      pdf(x: number, scale: number, shape: number): number;
      mean(scale: number, shape: number): number;
      variance(scale: number, shape: number): number;
    };
    gammafn(x: number): number;
    lowRegGamma(a: number, x: number): number;
  };
}
