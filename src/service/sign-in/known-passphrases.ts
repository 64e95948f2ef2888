import passwords from '@zxcvbn-ts/language-common/src/passwords.json' with { type: 'json' }

/**
 * What people chose elsewhere and thieves know: the passwords that occur most often in collections that were stolen and
 * became public. Nothing is asked of a network.
 */
const known: ReadonlySet<string> = new Set(passwords)

/** Whether it is one of them, whatever letters are large. */
export function isKnownPassphrase(passphrase: string): boolean {
  return known.has(passphrase.normalize('NFKC').trim().toLowerCase())
}
