/** Six digits YYMMDD of a date, read in the year of the scan. */
export type ElementDate = { readonly day: string } | { readonly wanted: string }

/**
 * The day that YYMMDD says. Of the years that end so it is the one from 49 back to 50 ahead (7.12); a day of 00 is the last of its
 * month, leap years included (3.4). `thisYear` is handed in: the same label means another century in another one.
 */
export function elementDate(digits: string, thisYear: number): ElementDate {
  if (!/^\d{6}$/.test(digits)) return { wanted: 'six digits, year, month and day' }
  const month = Number(digits.slice(2, 4))
  const dayOfMonth = Number(digits.slice(4))
  if (month < 1 || month > 12) return { wanted: 'a month from 01 to 12 in its third and fourth digit' }
  const year = fullYear(Number(digits.slice(0, 2)), thisYear)
  const last = new Date(Date.UTC(year, month, 0)).getUTCDate()
  if (dayOfMonth > last) return { wanted: `a day from 00 to ${last} in its last two digits, which month ${month} has` }
  const day = String(dayOfMonth === 0 ? last : dayOfMonth).padStart(2, '0')
  return { day: `${year}-${digits.slice(2, 4)}-${day}` }
}

/** The day of YYMMDDhhmm. Unlike a date alone it names its very day: one of 00 is none (from memory of the same specifications). */
export function elementMoment(digits: string, thisYear: number): ElementDate {
  if (!/^\d{10}$/.test(digits)) return { wanted: 'ten digits, year, month, day, hour and minute' }
  if (digits.slice(4, 6) === '00') return { wanted: 'a day from 01 in its fifth and sixth digit' }
  if (Number(digits.slice(6, 8)) > 23 || Number(digits.slice(8)) > 59)
    return { wanted: 'a time from 0000 to 2359 in its last four digits' }
  return elementDate(digits.slice(0, 6), thisYear)
}

function fullYear(twoDigits: number, thisYear: number): number {
  const century = thisYear - (thisYear % 100)
  const ahead = twoDigits - (thisYear % 100)
  if (ahead >= 51) return century - 100 + twoDigits
  if (ahead <= -50) return century + 100 + twoDigits
  return century + twoDigits
}
