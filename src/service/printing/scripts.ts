/** Scripts in which units write that the fonts of printed pages have no letters of. */
const lacking: readonly (readonly [name: string, letters: RegExp])[] = [
  ['Arabic', /\p{Script=Arabic}/u],
  ['Devanagari', /\p{Script=Devanagari}/u],
  ['Bengali', /\p{Script=Bengali}/u],
  ['Tamil', /\p{Script=Tamil}/u],
  ['Thai', /\p{Script=Thai}/u],
  ['Hebrew', /\p{Script=Hebrew}/u],
  ['Ethiopic', /\p{Script=Ethiopic}/u],
  ['Chinese or Japanese', /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}]/u],
  ['Korean', /\p{Script=Hangul}/u],
]

/** Which scripts of a text cannot be printed: Latin, Greek and Cyrillic can. */
export function scriptsWithoutLetters(text: string): readonly string[] {
  const found = lacking.filter(([, letters]) => letters.test(text)).map(([name]) => name)
  // Letters of any other script but those that the fonts have.
  const others = /(?![\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}\p{Script=Inherited}])\p{L}/u
  return found.length === 0 && others.test(text) ? ['another script'] : found
}
