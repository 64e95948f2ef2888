import type { Problem } from '#units/problem.ts'
import { passphraseLeast, pinLeast } from '#road/people/limits.ts'
import type { Policy } from '#road/policy.ts'
import { isKnownPassphrase } from './known-passphrases.ts'

/** What is wrong with secrets that a person wants to set. What they are is not repeated. */
export function unfitSecrets(
  policy: Policy,
  { passphrase, pin }: { readonly passphrase?: string; readonly pin?: string },
): readonly Problem[] {
  const least = policy.limit(passphraseLeast).value
  const digits = policy.limit(pinLeast).value
  const length = Array.from(passphrase ?? '').length
  return [
    ...(passphrase !== undefined && length < least
      ? [{ field: 'passphrase', wanted: `at least ${least} characters`, current: `${length}` }]
      : []),
    ...(passphrase !== undefined && length >= least && (isCommon(passphrase) || isKnownPassphrase(passphrase))
      ? [{ field: 'passphrase', wanted: 'words that are your own', current: 'one of those that everybody tries first' }]
      : []),
    ...(pin !== undefined && pin.length < digits
      ? [{ field: 'pin', wanted: `at least ${digits} digits`, current: `${pin.length}` }]
      : []),
    ...(pin !== undefined && isPlainRow(pin)
      ? [{ field: 'pin', wanted: 'digits that are not all the same and not in a row', current: 'such a one' }]
      : []),
  ]
}

/** What everybody thinks of first, here and elsewhere; a passphrase is more than these. */
const common =
  /nilgrowth|pass ?(?:word|phrase)s?|welcome|qwerty(?:uiop)?|azerty|abc(?:def)?|letmein|iloveyou|admin(?:istrator)?|manager|hospital|theatre|surgery|sterile|steril[a-z]*|summer|winter|autumn|spring|20\d\d|0?123456789?0?|987654321/gi

function isCommon(passphrase: string): boolean {
  const own = passphrase.replaceAll(common, '').replaceAll(/[\s\p{P}\d]/gu, '')
  return new Set(passphrase.toLowerCase()).size < 6 || new Set(own.toLowerCase()).size < 4
}

/** 111111 and 123456 are what everybody tries first. */
function isPlainRow(pin: string): boolean {
  const steps = new Set(
    Array.from(pin)
      .slice(1)
      .map((digit, place) => Number(digit) - Number(pin[place])),
  )
  return steps.size === 1 && [0, 1, -1].includes([...steps][0] ?? 2)
}
