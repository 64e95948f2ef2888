/**
 * Whether the last of these digits is the check digit of the others: from the right they weigh 3 and 1 in turn, and the sum with the
 * check digit is a multiple of ten (GS1 General Specifications 7.9). It holds for GTIN, SSCC, GLN and the number in a GRAI.
 */
export function checkDigitFits(digits: string): boolean {
  return /^\d{2,}$/.test(digits) && checkDigitOf(digits.slice(0, -1)) === digits.at(-1)
}

export function checkDigitOf(digits: string): string {
  const sum = digits
    .split('')
    .toReversed()
    .reduce((total, digit, place) => total + Number(digit) * (place % 2 === 0 ? 3 : 1), 0)
  return String((10 - (sum % 10)) % 10)
}
