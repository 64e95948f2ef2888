/**
 * Texts cut to a length, each unlike the others: what would be the same after the cut gets a number. The same texts in the
 * same order give the same names.
 */
export function namesWithin(most: number, texts: readonly string[]): readonly string[] {
  const taken = new Set<string>()
  return texts.map((text) => {
    let name = text.slice(0, most)
    for (let number = 2; taken.has(name); number += 1) {
      const mark = ` (${number})`
      name = `${text.slice(0, most - mark.length)}${mark}`
    }
    taken.add(name)
    return name
  })
}
