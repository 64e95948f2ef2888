import { en } from './en.ts'

/** Every text that a person reads, in one language. */
export type Words = typeof en

/** The language in use. A further language is another object of this type. */
export const words: Words = en
