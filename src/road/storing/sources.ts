import type { Source } from '#units/source.ts'

export const packIntegrity: Source = {
  title: 'Event-related shelf life',
  edition: 'CDC 2008 and ST79, as quoted in training texts',
  clause: 'sterile as long as the pack is whole and dry',
  status: 'secondary',
}

export const storageClimate: Source = {
  title: 'Conditions of sterile storage, as quoted in trade texts',
  status: 'secondary',
}
