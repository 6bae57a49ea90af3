import fc from 'fast-check';

const surrogates = { from: 0xd800, count: 0x800 };

/** Any character of Unicode, as `unit: 'binary'` has it, without the second that its tables take to be made. */
export const anyCharacter = fc
  .nat(0x10ffff - surrogates.count)
  .map((code) => String.fromCodePoint(code < surrogates.from ? code : code + surrogates.count));
