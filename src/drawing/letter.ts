/** How much room words take, before any font is at hand: widths that a plain sans serif does not exceed. */

const WIDE = /[MWmw@%—…\u0416\u0428\u0429\u042E\u0436\u0448\u0449\u044E]/u;
const NARROW = /[ijlI.,:;'’!|()[\]\-·]/u;
const UPPER = /\p{Lu}/u;
const DIGIT = /[0-9]/;

/** An upper estimate of the width of `words` at `size`, in the unit of `size`. */
export function textWidth(words: string, size: number, bold = false): number {
  let em = 0;
  for (const character of words) {
    if (DIGIT.test(character)) em += 0.64;
    else if (character === ' ') em += 0.32;
    else if (NARROW.test(character)) em += 0.42;
    else if (WIDE.test(character)) em += 1.02;
    else if (UPPER.test(character)) em += 0.76;
    else em += character.codePointAt(0)! > 0x2e80 ? 1.02 : 0.63;
  }
  return em * size * (bold ? 1.1 : 1);
}

/** The largest size from `most` down to `least` at which `words` are no wider than `width`; null where none is. */
export function fitSize(words: string, width: number, most: number, least: number, bold = false): number | null {
  const atOne = textWidth(words, 1, bold);
  if (atOne === 0) return most;
  const size = Math.min(most, width / atOne);
  return size < least ? null : size;
}
