import type { Source } from '#units/source.ts'

export const lotPractice: Source = {
  title: 'Consumables',
  clause: 'used before their expiry and not after they were withdrawn',
  status: 'commonPractice',
}
