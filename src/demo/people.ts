import type { Bodies } from '#road/kinds.ts'

export type PersonId = Bodies['person-registered']['person']

/** The people of an invented hospital. Any likeness in name is chance. */
export const people = [
  ['castellan', 'Imre Castellan', ['surgeonInCharge', 'theatre']],
  ['lindqvist', 'Adaeze Lindqvist', ['theatre']],
  ['marchetti-rao', 'Sunil Marchetti-Rao', ['theatre']],
  ['haldane', 'Yrsa Haldane', ['theatre']],
  ['okello', 'Betty Okello', ['theatre']],
  ['vantongeren', 'Joost Vantongeren', ['theatre']],
  ['sarmiento', 'Lucía Sarmiento', ['theatre']],
  ['ferreira', 'Tomás Ferreira', ['theatre', 'trainer']],
  ['adeyemi', 'Kolade Adeyemi', ['reprocessing', 'trainer']],
  ['brankovic', 'Mila Brankovic', ['reprocessing']],
  ['nakagawa', 'Ren Nakagawa', ['reprocessing']],
  ['ouedraogo', 'Salif Ouedraogo', ['reprocessing']],
  ['thorsen', 'Ingrid Thorsen', ['infectionControl', 'auditor']],
  ['desrosiers', 'Paul Desrosiers', ['manager']],
] as const satisfies readonly (readonly [string, string, Bodies['person-registered']['roles']])[]

export const surgeons = ['person:castellan', 'person:lindqvist', 'person:marchetti-rao', 'person:haldane'] as const
export const nurses = ['person:okello', 'person:vantongeren', 'person:sarmiento', 'person:ferreira'] as const
export const technicians = ['person:adeyemi', 'person:brankovic', 'person:nakagawa', 'person:ouedraogo'] as const
export const infectionControl = 'person:thorsen'
export const manager = 'person:desrosiers'

/** Who has the wash room, the packing bench and the sterilisers on a working day. */
export interface Shift {
  readonly wash: PersonId
  readonly packing: PersonId
  readonly machines: PersonId
}

export function shiftOf(workingDay: number): Shift {
  const turn = (step: number) => technicians[(Math.floor(workingDay / 5) + workingDay * 3 + step) % 4] ?? technicians[0]
  return { wash: turn(0), packing: turn(1), machines: turn(2) }
}
