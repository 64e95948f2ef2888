import type { LoadPurpose } from './entries.ts'

/** Whether a load is run to prove a steriliser. */
export function isProving({ purpose }: { readonly purpose: LoadPurpose }): boolean {
  return purpose === 'qualification' || purpose === 'retest' || purpose === 'biologicalTest'
}
