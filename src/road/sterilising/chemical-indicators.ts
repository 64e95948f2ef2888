import type { Source } from '#units/source.ts'

export type ChemicalType = '1' | '2' | '3' | '4' | '5' | '6'
export type ChemicalUse = 'outsidePack' | 'insidePack' | 'challengeDevice' | 'airRemovalTest'

export const chemicalTypes: Source = {
  title: 'ISO 11140-1, roles of the types as quoted in training texts',
  edition: '2014',
  clause: 'the number of a type is no rank',
  status: 'secondary',
}

/** What a type of chemical indicator tells, and where it belongs. */
export const chemicalIndicators: Readonly<
  Record<ChemicalType, { readonly name: string; readonly tells: string; readonly uses: readonly ChemicalUse[] }>
> = Object.freeze({
  '1': { name: 'process', tells: 'that the pack has been through a process', uses: ['outsidePack'] },
  '2': {
    name: 'specific test',
    tells: 'the result of one test, as of air removal',
    uses: ['airRemovalTest', 'challengeDevice'],
  },
  '3': { name: 'one variable', tells: 'that one variable was reached', uses: ['insidePack'] },
  '4': {
    name: 'several variables',
    tells: 'that two or more variables were reached',
    uses: ['insidePack', 'challengeDevice'],
  },
  '5': {
    name: 'integrating',
    tells: 'that all critical variables were reached together',
    uses: ['insidePack', 'challengeDevice'],
  },
  '6': {
    name: 'emulating',
    tells: 'that the variables of one cycle were reached',
    uses: ['insidePack', 'challengeDevice'],
  },
})
