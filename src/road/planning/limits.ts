import type { Limit } from '../policy.ts'
import { childrenEarly, latexFirst, orderOfList, planningDefaults } from './sources.ts'

function minutes(id: string, title: string, value: number, to = 600): Limit<number> {
  return { id: `plan-${id}`, title, unit: 'minutes', value, source: planningDefaults, allowed: { from: 0, to } }
}

function hour(id: string, title: string, value: number): Limit<number> {
  const unit = 'h after midnight'
  return { id: `plan-${id}`, title, unit, value, source: planningDefaults, allowed: { from: 0, to: 24 } }
}

function count(id: string, title: string, value: number, unit: string): Limit<number> {
  return { id: `plan-${id}`, title, unit, value, source: planningDefaults, allowed: { from: 1, to: 100 } }
}

export const theatreOpens = hour('theatre-opens', 'A theatre opens, where its hours are not set', 8)
export const theatreCloses = hour('theatre-closes', 'A theatre closes, where its hours are not set', 16)
export const theatreMustClose = hour('theatre-must-close', 'A theatre must close, where its hours are not set', 18)
export const lineFrom = hour('line-from', 'Wash room, packing and machines begin, where their hours are not set', 7)
export const lineTo = hour('line-to', 'Wash room, packing and machines end, where their hours are not set', 20)

export const turnoverStandard = minutes('turnover', 'Between two operations in one theatre', 20)
export const turnoverDirty = minutes('turnover-dirty', 'After a contaminated or dirty operation', 30)
export const turnoverInfectious = minutes('turnover-infectious', 'After an infectious risk', 45)
export const surgeonGap = minutes('surgeon-gap', 'Between two operations of one surgeon', 10)
export const setLead = minutes('set-lead', 'A set is there so long before its operation', 25)

export const defaultCaseMinutes = minutes('case', 'An operation without any duration on record', 90)
export const soakMinutes = minutes('soak', 'Soak and way to the wash room', 20)
export const apartMinutes = minutes('take-apart', 'Taking one set apart and brushing it', 8)
export const handWashMinutes = minutes('hand-wash', 'Washing one set by hand', 25)
export const washerMinutes = minutes('washer', 'A run of the washer with its drying, where it is not set', 60)
export const packMinutes = minutes('pack', 'Inspecting and packing one set', 12)
export const coolMinutes = minutes('cool', 'Release, cooling and storing after a run', 40)

export const washerPlaces = count('washer-places', 'Sets in one run of the washer, where it is not set', 10, 'sets')
export const steriliserPlaces = count('steriliser-places', 'Sets in one load, where no load is on record', 4, 'sets')
export const bathPlaces = count('bath-places', 'Sets in one bath at once', 1, 'sets')
export const washRoomStaff = count('wash-room-staff', 'Staff in the wash room, where it is not set', 1, 'staff')
export const packingStaff = count('packing-staff', 'Staff at packing, where it is not set', 1, 'staff')

export const leastDurations: Limit<number> = {
  ...count('least-durations', 'Operations on record from which a duration is taken', 5, 'operations'),
  allowed: { from: 2, to: 100 },
}

export const durationPercent: Limit<number> = {
  ...count('duration-percent', 'Share of operations that fit into the time that is planned', 50, '%'),
  allowed: { from: 20, to: 95 },
}

export const mayChangeTheatre: Limit<boolean> = {
  id: 'plan-may-change-theatre',
  title: 'Let the plan put an operation into another theatre than it is booked for',
  unit: 'yes or no',
  value: true,
  source: planningDefaults,
}

export const latexIsFirst: Limit<boolean> = {
  id: 'plan-latex-first',
  title: 'Operate first on a patient who is allergic to latex',
  unit: 'yes or no',
  value: true,
  source: latexFirst,
}

export const childLatest: Limit<number> = {
  ...hour('child-latest', 'Latest start of an operation on a child', 11),
  source: childrenEarly,
}

export const orderByClass: Limit<boolean> = {
  id: 'plan-order-by-class',
  title: 'Order a list by implant, wound class and infectious risk',
  unit: 'yes or no',
  value: true,
  source: orderOfList,
}

export const planningLimits: readonly Limit[] = Object.freeze([
  theatreOpens,
  theatreCloses,
  theatreMustClose,
  lineFrom,
  lineTo,
  turnoverStandard,
  turnoverDirty,
  turnoverInfectious,
  surgeonGap,
  setLead,
  defaultCaseMinutes,
  leastDurations,
  durationPercent,
  soakMinutes,
  apartMinutes,
  handWashMinutes,
  washerMinutes,
  washerPlaces,
  packMinutes,
  steriliserPlaces,
  coolMinutes,
  bathPlaces,
  washRoomStaff,
  packingStaff,
  mayChangeTheatre,
  orderByClass,
  latexIsFirst,
  childLatest,
])
