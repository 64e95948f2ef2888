import type { RoundStanding } from '#road/round.ts'
import type { LoadStanding } from '#road/sterilising/load-fold.ts'
import type { CaseStanding } from '#road/operating/fold.ts'
import type { Relation } from '#road/link.ts'
import type { SubjectKind } from '#road/subject.ts'

const round: Record<RoundStanding, string> = {
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

const load: Record<LoadStanding, string> = {
  built: 'Built, cycle not logged',
  run: 'Run, to be decided',
  aerating: 'Being aerated',
  cancelled: 'Cycle cancelled',
  quarantined: 'In quarantine',
  released: 'Released',
  rejected: 'Rejected',
  failed: 'Failed: growth in its indicator',
}

const operation: Record<CaseStanding, string> = { booked: 'Booked', running: 'Packs open', recorded: 'Recorded' }

const kinds: Record<SubjectKind, string> = {
  unit: 'Unit',
  policy: 'Policy',
  person: 'Person',
  device: 'Device',
  item: 'Item',
  set: 'Set',
  machine: 'Machine',
  round: 'Round',
  wash: 'Wash',
  outlet: 'Water outlet',
  load: 'Load',
  log: 'Log',
  bath: 'Bath',
  immersion: 'Immersion',
  lot: 'Lot',
  case: 'Case',
  wound: 'Wound',
  recall: 'Recall',
}

const relations: Record<Relation, string> = {
  of: 'is of',
  follows: 'follows',
  usedIn: 'was used in',
  washedIn: 'was washed in',
  ranOn: 'ran on',
  provenBy: 'is proven by',
  inLoad: 'was in load',
  aeratedIn: 'was aerated in',
  rinsedAt: 'took its water at',
  inBath: 'was in',
  immersedIn: 'was immersed in',
  fromLot: 'was poured from',
  testedFrom: 'was tested with strips of',
  usedLot: 'used lot',
  exposed: 'exposed',
  openedFor: 'was opened for',
  woundOf: 'is a wound of',
  recalls: 'recalls because of',
  by: 'was done by',
}

export const standingWords = {
  round,
  load,
  case: operation,
  kinds,
  relations,
  other: {
    inUse: 'In use',
    failedStrip: 'Failed its strip: discard it',
    discarded: 'Discarded',
    immersed: 'Under the surface',
    takenOut: 'Taken out, to be rinsed and decided',
    readyForUse: 'Ready for use at once',
    treatAgain: 'To be treated again',
    usable: 'May be used',
    toBeControlled: 'To be tried first',
    held: 'Held',
    rejected: 'Rejected',
    inService: 'In service',
    withdrawn: 'Out of service',
    active: 'Works here',
    left: 'Has left',
    open: 'Open',
    closed: 'Closed',
    neverUsed: 'Not on a round yet',
    onRound: 'On a round',
    registered: 'Registered',
    retired: 'Retired',
    outForRepair: 'Out for repair',
    insulationFaulty: 'Insulation failed its last test',
    returned: 'Sent back to its lender',
    noted: 'Noted',
    manual: 'By hand',
    washer: 'In a washer',
    defaults: 'As delivered',
    changed: 'Changed by the unit',
  },
}
