import type { Source } from '#units/source.ts'

export const lotPractice: Source = {
  title: 'Consumables',
  clause: 'used before their expiry and not after they were withdrawn',
  status: 'commonPractice',
}

export const calibrationProposal: Source = {
  title: 'Mechanical failure with a known start',
  clause: 'loads since the last good calibration',
  status: 'proposal',
}

export const detergentMaker: Source = {
  title: 'Instructions of the maker of the detergent',
  clause: 'dilution and temperature, as written down when the lot was taken into use',
  status: 'commonPractice',
}
