import type { Source } from '#units/source.ts'
import type { Limit } from '../policy.ts'

const electronicRecords: Source = {
  title: '21 CFR Part 11, Electronic records; electronic signatures',
  clause: '11.50, 11.200, 11.300',
  status: 'unverified',
}
const passwordGuidance: Source = {
  title: 'NIST SP 800-63B, Digital Identity Guidelines: Authentication',
  clause: 'memorised secrets, rate limiting, reauthentication',
  status: 'unverified',
}
const signInProposal: Source = {
  title: 'Signing in at a shared tablet in a wet room',
  status: 'proposal',
}

export const signDecisions: Limit<boolean> = {
  id: 'sign-decisions',
  title: 'Whoever takes a decision signs it at that moment, with the PIN or passphrase',
  unit: 'yes or no',
  value: true,
  source: electronicRecords,
}

export const secondForExceptions: Limit<boolean> = {
  id: 'second-for-exceptions',
  title: 'Whoever allows an exception is another person than the one who enters it, and signs',
  unit: 'yes or no',
  value: true,
  source: signInProposal,
}

export const secondForRecallClosing: Limit<boolean> = {
  id: 'second-for-recall-closing',
  title: 'A second person confirms that a recall is closed',
  unit: 'yes or no',
  value: true,
  source: signInProposal,
}

export const secondForLimitChanges: Limit<boolean> = {
  id: 'second-for-limit-changes',
  title: 'A second person confirms the change of a limit',
  unit: 'yes or no',
  value: true,
  source: signInProposal,
}

export const idleMinutes: Limit<number> = {
  id: 'idle-minutes',
  title: 'A person is signed out after this long without doing anything',
  unit: 'minutes',
  value: 15,
  source: signInProposal,
  allowed: { from: 1, to: 480 },
}

export const sessionHours: Limit<number> = {
  id: 'session-hours',
  title: 'A person signs in anew after this long, whatever was done',
  unit: 'hours',
  value: 12,
  source: passwordGuidance,
  allowed: { from: 1, to: 24 },
}

export const triesBeforeLock: Limit<number> = {
  id: 'tries-before-lock',
  title: 'Wrong PINs or passphrases in a row that lock an account',
  unit: 'tries',
  value: 5,
  source: passwordGuidance,
  allowed: { from: 3, to: 20 },
}

export const lockMinutes: Limit<number> = {
  id: 'lock-minutes',
  title: 'How long an account stays locked after too many wrong tries',
  unit: 'minutes',
  value: 15,
  source: passwordGuidance,
  allowed: { from: 1, to: 1440 },
}

export const passphraseLeast: Limit<number> = {
  id: 'passphrase-least',
  title: 'The fewest characters of a passphrase',
  unit: 'characters',
  value: 15,
  source: passwordGuidance,
  allowed: { from: 8, to: 64 },
}

export const pinLeast: Limit<number> = {
  id: 'pin-least',
  title: 'The fewest digits of a PIN, which counts at an enrolled tablet only',
  unit: 'digits',
  value: 6,
  source: signInProposal,
  allowed: { from: 4, to: 12 },
}

export const passphraseAlone: Limit<boolean> = {
  id: 'passphrase-alone',
  title:
    'Away from an enrolled tablet the passphrase alone signs in; if not, it takes a passkey or a new one-time code',
  unit: 'yes or no',
  value: true,
  source: passwordGuidance,
}

const dataProtection: Source = {
  title: 'Regulation (EU) 2016/679, General Data Protection Regulation',
  clause: 'articles 4(5), 5(1)(c), 17 and 32',
  status: 'unverified',
}

export const keepIdentities: Limit<boolean> = {
  id: 'keep-identities',
  title: 'It is kept who the patients are, encrypted and apart from the record; without it a case has its number only',
  unit: 'yes or no',
  value: false,
  source: dataProtection,
}

export const peopleLimits = Object.freeze([
  signDecisions,
  secondForExceptions,
  secondForRecallClosing,
  secondForLimitChanges,
  idleMinutes,
  sessionHours,
  triesBeforeLock,
  lockMinutes,
  passphraseLeast,
  pinLeast,
  passphraseAlone,
  keepIdentities,
] as const)
