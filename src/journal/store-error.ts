/** A store that cannot be used as was asked, through no mistake of the program: missing, in use, or not sound. */
export class StoreError extends Error {
  override readonly name = 'StoreError'
}
