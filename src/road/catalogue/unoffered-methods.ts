import type { Source } from '#units/source.ts'
import { ozoneFigures, peroxideOzoneFigures } from './sources.ts'

/** Methods that makers list and this program has no programme for: they can be registered, and are always barred. */
export const unofferedMethods = ['ozone', 'peroxideWithOzone'] as const
export type UnofferedMethod = (typeof unofferedMethods)[number]

interface Unoffered {
  readonly name: string
  readonly why: string
  readonly source: Source
}

export const unofferedFacts: Readonly<Record<UnofferedMethod, Unoffered>> = {
  ozone: {
    name: 'Ozone',
    why: 'No programme is on file: its humidity and its exposure are not published as windows that a cycle could be judged by, only single figures are. What it sterilised could not be proven here. Use another method that the maker lists, or send the device to where ozone is run and proven.',
    source: ozoneFigures,
  },
  peroxideWithOzone: {
    name: 'Hydrogen peroxide with ozone',
    why: 'No programme is on file: only the time of its whole cycle is published. What it sterilised could not be proven here. Use another method that the maker lists, or send the device to where it is run and proven.',
    source: peroxideOzoneFigures,
  },
}
