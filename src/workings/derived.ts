import { z } from 'zod'

/** What a figure was computed from: the working by its id, and the very input that gives the figure again. */
export interface Derived {
  readonly working: string
  readonly input: Readonly<Record<string, unknown>>
}

export const DerivedField = z.object({
  working: z.string().describe('id of the working, as /api/workings lists it'),
  input: z.record(z.string(), z.json()).describe('the input that gives the figure again'),
})
