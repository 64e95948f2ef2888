import type { Seal } from '#journal/seal/seal.ts'

/** One of GET /api/seals, and POST /api/seals: the seal, and its text for paper. */
export interface ShownSeal {
  readonly seal: Seal
  readonly text: string
}

/** GET /api/seals */
export interface SealsAnswer {
  readonly seals: readonly ShownSeal[]
  readonly failure: string | null
}
