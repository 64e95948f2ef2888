import type { Source } from '#units/source.ts'
import type { SteamProgram } from './program.ts'
import type { SteamFigure } from './sources.ts'

/** A programme of the policy: its figures, each with its source. A unit may replace any of them by its own. */
export interface NamedSteamProgram {
  readonly key: string
  readonly title: string
  readonly program: SteamProgram
  /** Source of a figure where it differs from the one every programme shares. */
  readonly sources: Partial<Record<SteamFigure, Source>>
}

const clubTable: Source = {
  title: 'Central Sterilising Club, Principles of medical device decontamination',
  clause: 'Table 10.2',
  status: 'confirmed',
}
const cdcTable: Source = {
  title: 'CDC, Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'Table 7',
  status: 'confirmed',
}
const st79Gravity: Source = { title: 'ANSI/AAMI ST79', clause: 'gravity, wrapped, 135 degC', status: 'confirmed' }
const st79Dynamic: Source = { title: 'ANSI/AAMI ST79', clause: 'dynamic air removal, 135 degC', status: 'unverified' }
const airRemovalTest: Source = {
  title: 'EN 285',
  clause: '17 and 19, air-removal test: 3.5 min and not longer, no drying',
  status: 'unverified',
}
const longOption: Source = {
  title: 'WHO option for prion risk, as an instrument maker prints it',
  clause: '134 degC, 18 min',
  status: 'confirmed',
}

function named(
  key: string,
  title: string,
  sterilisationC: number,
  holdMinutes: number,
  source: Source,
): NamedSteamProgram {
  const program: SteamProgram = {
    sterilisationC,
    bandK: 3,
    holdSeconds: holdMinutes * 60,
    chamberLitres: 600,
    maxDifferenceK: 2,
  }
  return Object.freeze({ key, title, program, sources: { hold: source } })
}

/**
 * The programmes by key. None asks for pulses or drying, since those figures belong to the machine's validation;
 * the chamber is taken as 600 L, under the stricter equilibration limit, until the machine's volume is given.
 */
export const steamPrograms: readonly NamedSteamProgram[] = Object.freeze([
  named('porous-134', 'Porous load, 134 °C for 3 min', 134, 3, clubTable),
  named('porous-134-18', 'Porous load, 134 °C for 18 min', 134, 18, longOption),
  named('porous-126', 'Porous load, 126 °C for 10 min', 126, 10, clubTable),
  named('porous-121', 'Porous load, 121 °C for 15 min', 121, 15, clubTable),
  named('porous-115', 'Porous load, 115 °C for 30 min (rarely used)', 115, 30, clubTable),
  named('air-removal-134', 'Air-removal test, 134 °C for 3.5 min', 134, 3.5, airRemovalTest),
  named('prevacuum-132', 'Dynamic air removal, 132 °C for 4 min', 132, 4, cdcTable),
  named('prevacuum-135', 'Dynamic air removal, 135 °C for 3 min', 135, 3, st79Dynamic),
  named('gravity-121', 'Gravity, wrapped instruments, 121 °C for 30 min', 121, 30, cdcTable),
  named('gravity-132', 'Gravity, wrapped instruments, 132 °C for 15 min', 132, 15, cdcTable),
  named('gravity-135', 'Gravity, wrapped instruments, 135 °C for 10 min', 135, 10, st79Gravity),
])

/** A programme by its key, from the unit's own list where it has one. */
export function steamProgramByKey(
  key: string,
  programs: readonly NamedSteamProgram[] = steamPrograms,
): NamedSteamProgram | undefined {
  return programs.find((program) => program.key === key)
}
