type Model = (b: readonly number[], x: readonly number[]) => number;

const saturating: Model = ([b1, b2], [x]) => b1! * (1 - Math.exp(-b2! * x!));
const chwirut: Model = ([b1, b2, b3], [x]) => Math.exp(-b1! * x!) / (b2! + b3! * x!);
const threeDecays: Model = ([b1, b2, b3, b4, b5, b6], [x]) =>
  b1! * Math.exp(-b2! * x!) + b3! * Math.exp(-b4! * x!) + b5! * Math.exp(-b6! * x!);
const twoPeaks: Model = ([b1, b2, b3, b4, b5, b6, b7, b8], [x]) =>
  b1! * Math.exp(-b2! * x!) +
  b3! * Math.exp(-((x! - b4!) ** 2) / b5! ** 2) +
  b6! * Math.exp(-((x! - b7!) ** 2) / b8! ** 2);
const cubicOverCubic: Model = ([b1, b2, b3, b4, b5, b6, b7], [x]) =>
  (b1! + b2! * x! + b3! * x! ** 2 + b4! * x! ** 3) / (1 + b5! * x! + b6! * x! ** 2 + b7! * x! ** 3);
const wave = (x: number, period: number, cosine: number, sine: number) =>
  cosine * Math.cos((2 * Math.PI * x) / period) + sine * Math.sin((2 * Math.PI * x) / period);

/** The model of each set, as its file states it in words. */
export const nistModels: Readonly<Record<string, Model>> = {
  Bennett5: ([b1, b2, b3], [x]) => b1! * (b2! + x!) ** (-1 / b3!),
  BoxBOD: saturating,
  Chwirut1: chwirut,
  Chwirut2: chwirut,
  DanWood: ([b1, b2], [x]) => b1! * x! ** b2!,
  ENSO: ([b1, b2, b3, b4, b5, b6, b7, b8, b9], [x]) =>
    b1! + wave(x!, 12, b2!, b3!) + wave(x!, b4!, b5!, b6!) + wave(x!, b7!, b8!, b9!),
  Eckerle4: ([b1, b2, b3], [x]) => (b1! / b2!) * Math.exp(-0.5 * ((x! - b3!) / b2!) ** 2),
  Gauss1: twoPeaks,
  Gauss2: twoPeaks,
  Gauss3: twoPeaks,
  Hahn1: cubicOverCubic,
  Kirby2: ([b1, b2, b3, b4, b5], [x]) => (b1! + b2! * x! + b3! * x! ** 2) / (1 + b4! * x! + b5! * x! ** 2),
  Lanczos1: threeDecays,
  Lanczos2: threeDecays,
  Lanczos3: threeDecays,
  MGH09: ([b1, b2, b3, b4], [x]) => (b1! * (x! ** 2 + x! * b2!)) / (x! ** 2 + x! * b3! + b4!),
  MGH10: ([b1, b2, b3], [x]) => b1! * Math.exp(b2! / (x! + b3!)),
  MGH17: ([b1, b2, b3, b4, b5], [x]) => b1! + b2! * Math.exp(-x! * b4!) + b3! * Math.exp(-x! * b5!),
  Misra1a: saturating,
  Misra1b: ([b1, b2], [x]) => b1! * (1 - (1 + (b2! * x!) / 2) ** -2),
  Misra1c: ([b1, b2], [x]) => b1! * (1 - (1 + 2 * b2! * x!) ** -0.5),
  Misra1d: ([b1, b2], [x]) => (b1! * b2! * x!) / (1 + b2! * x!),
  Nelson: ([b1, b2, b3], [x1, x2]) => b1! - b2! * x1! * Math.exp(-b3! * x2!),
  Rat42: ([b1, b2, b3], [x]) => b1! / (1 + Math.exp(b2! - b3! * x!)),
  Rat43: ([b1, b2, b3, b4], [x]) => b1! / (1 + Math.exp(b2! - b3! * x!)) ** (1 / b4!),
  Roszman1: ([b1, b2, b3, b4], [x]) => b1! - b2! * x! - Math.atan(b3! / (x! - b4!)) / Math.PI,
  Thurber: cubicOverCubic,
};
