import type { Source } from '#units/source.ts'

/** The figures a criterion compares with; each has a source. */
export type SteamFigure =
  | 'hold'
  | 'band'
  | 'satBand'
  | 'spread'
  | 'equilibration'
  | 'topFirst'
  | 'topAfter'
  | 'pulses'
  | 'drying'

const ofUnit: Source = { title: 'Programme of the unit', status: 'proposal' }

/** Where each rule comes from when the programme does not bring a source of its own. */
export const ruleSources: Readonly<Record<SteamFigure, Source>> = Object.freeze({
  hold: { title: 'EN 285', clause: '8.3.1.4', status: 'confirmed' },
  band: { title: 'EN 285', clause: '8.3.1.3, band 0/+3 K', status: 'unverified' },
  satBand: { title: 'EN 285', clause: '8.3.1.3, saturation temperature in the band', status: 'unverified' },
  spread: { title: 'EN 285', clause: '8.3.1.3, 2 K at one instant', status: 'unverified' },
  equilibration: { title: 'EN 285', clause: '8.3.1.1, 15 s up to 800 L', status: 'unverified' },
  topFirst: { title: 'EN 285', clause: '8.3.1.2, 5 K in the first 60 s', status: 'unverified' },
  topAfter: { title: 'EN 285', clause: '8.3.1.2, 2 K after 60 s', status: 'unverified' },
  pulses: ofUnit,
  drying: ofUnit,
})

export const largeChamberSource: Source = { title: 'EN 285', clause: '8.3.1.1, 30 s above 800 L', status: 'confirmed' }
export const unitLimitSource = ofUnit

export const algorithmSource: Source = {
  title: 'Reading of a logged cycle: plateau, equilibration and holding time as EN 285 defines them',
  clause: '8.3.1, 8.3.2',
  status: 'secondary',
}
