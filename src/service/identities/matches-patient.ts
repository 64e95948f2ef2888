import type { PatientIdentity } from '#road/people/identity.ts'

/*
 * A patient who is asked for must not be missed for an accent, a blank or the order of the names: in a recall that would be
 * believed.
 */

/** Letters that have no accent to take off. */
const plainLetters: Readonly<Record<string, string>> = { ł: 'l', ø: 'o', đ: 'd', ß: 'ss', æ: 'ae', œ: 'oe', ı: 'i' }

/** Whether each word of the text is in one of the fields, letters and figures alone compared. */
export function matchesPatient(text: string): (identity: PatientIdentity) => boolean {
  const wanted = text
    .trim()
    .split(/\s+/)
    .map(asIsoDay)
    .map(plain)
    .filter((word) => word !== '')
  return (identity) => {
    const fields = Object.values(identity).map((value) => plain(value ?? ''))
    return wanted.length > 0 && wanted.every((word) => fields.some((field) => field.includes(word)))
  }
}

/** `2.4.1971`, `02/04/1971` and `2-4-1971` are the day `1971-04-02`. */
function asIsoDay(word: string): string {
  const [, day, month, year] = /^(\d{1,2})[./-](\d{1,2})[./-](\d{4})$/.exec(word) ?? []
  return day === undefined || month === undefined || year === undefined
    ? word
    : `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
}

function plain(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[łøđßæœı]/g, (letter) => plainLetters[letter] ?? letter)
    .replaceAll(/[^\p{L}\p{N}]+/gu, '')
}
