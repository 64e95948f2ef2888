import type { RoundStanding } from './round.ts'
import type { LoadStanding } from './sterilising/load-fold.ts'

/* Where packs and loads stand, as screens and printed pages say it. */

export const roundStandingWords: Record<RoundStanding, string> = {
  used: 'Used, waits for its soak',
  soaking: 'Soaking',
  washed: 'Washed, to be inspected',
  inspected: 'Inspected, to be packed',
  sentBack: 'Sent back to the wash',
  inBath: 'In a bath',
  bathReady: 'Out of the bath, for use at once',
  sealed: 'Packed, waits for a load',
  inLoad: 'In a load',
  quarantined: 'In quarantine',
  rejected: 'Rejected',
  released: 'Released, to be stored',
  onShelf: 'On the shelf',
  damaged: 'Pack damaged',
  opened: 'Open in a case',
  over: 'Round over',
}

export const loadStandingWords: Record<LoadStanding, string> = {
  built: 'Built, cycle not logged',
  run: 'Run, to be decided',
  testPassed: 'Test done: passed',
  testFailed: 'Test done: failed',
  aerating: 'Being aerated',
  aerationStopped: 'Aeration interrupted, to be aerated again',
  cancelled: 'Cycle cancelled',
  quarantined: 'In quarantine',
  released: 'Released',
  rejected: 'Rejected',
  failed: 'Failed: growth in its indicator',
}
