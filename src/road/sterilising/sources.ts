import type { Source } from '#units/source.ts'

/* Where the numbers and rules of sterilising come from. */

export const cdcPositiveIndicator: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'Table 12',
  status: 'confirmed',
}

/** The three in a row are confirmed; that each type of cycle is proven for itself was read only where it is quoted. */
export const provenByCycleType: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities, as quoted in training texts',
  edition: '2008',
  clause: 'after installation, move or major repair: three good biological tests in a row of each cycle type',
  status: 'secondary',
}

export const cdcMonitoring: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'monitoring of sterilisers',
  status: 'confirmed',
}

export const st79Release: Source = {
  title: 'ANSI/AAMI ST79, as quoted in training texts',
  clause: 'release of loads',
  status: 'secondary',
}

export const mmwrControl: Source = {
  title: 'CDC guidance of 2003 on matching control indicators',
  edition: 'MMWR 2003',
  status: 'secondary',
}

export const unverifiedPractice: Source = {
  title: 'Practice of sterile supply departments, from memory',
  status: 'unverified',
}

export const recallProposal: Source = {
  title: 'Recall extent',
  clause: 'loads since the last good result',
  status: 'proposal',
}

export const airLeakage: Source = {
  title: 'EN 285 and EN 13060',
  clause: 'air leakage: 1.3 mbar/min over 10 min after 5 min of settling',
  status: 'confirmed',
}

export const releaseTable: Source = {
  title: 'Release of a load',
  clause: 'from ST79 and CDC 2008',
  status: 'proposal',
}

export const biologicalByMethod: Source = {
  title: 'Biological indicators by method, as quoted in training texts on ISO 11138',
  status: 'secondary',
}

export const indicatorMaker: Source = {
  title: 'Instructions of the maker of the indicator',
  clause: 'hours, temperature and reader, as written down with its lot',
  status: 'commonPractice',
}

export const populationRecalled: Source = {
  title: 'ISO 11138, populations and D values, from memory',
  status: 'unverified',
}

export const gasEachLoad: Source = {
  title: 'Guidance on monitoring of ethylene oxide, as quoted in training texts',
  clause: 'a biological indicator in every load',
  status: 'secondary',
}

export const peroxideDaily: Source = {
  title: 'ANSI/AAMI ST58, from memory',
  clause: 'hydrogen peroxide: biological indicator at least daily, preferably every load, and with every implant',
  status: 'unverified',
}

export const parametricRelease: Source = {
  title: 'EN 285 and EN ISO 17665, from memory',
  clause: 'release on parameters only where every critical variable is recorded independently',
  status: 'unverified',
}

export const nonSteamPositive: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities, as quoted',
  edition: '2008',
  clause: 'a single positive of a low-temperature method: all items since the last negative are not sterile',
  status: 'secondary',
}
