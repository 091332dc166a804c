/** The text of a list from a spreadsheet, in whichever encoding it was saved. */

/** Controls that part nothing stand in no list, and in every file that is no text. */
const CONTROLS = /(?!\s)\p{Cc}/u;

/**
 * UTF-16 where the file begins so, else UTF-8, else Windows-1252, which has a letter for nearly every byte and is what
 * spreadsheets there mean by CSV. Null for what is no text at all.
 */
export function listText(bytes: Uint8Array): string | null {
  const text = new TextDecoder(encodingOf(bytes)).decode(bytes);
  return CONTROLS.test(text) ? null : text;
}

function encodingOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return 'utf-8';
  } catch {
    return 'windows-1252';
  }
}
