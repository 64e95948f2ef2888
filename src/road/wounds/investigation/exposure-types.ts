/*
 * What a case can have been exposed to, as far as the record knows. The list is closed, so that a screen has a word
 * for each and the ranking knows which ones water and baths belong to.
 */

export const exposureTypes = [
  'set',
  'wash',
  'washer',
  'washedBy',
  'outlet',
  'lot',
  'inspectedBy',
  'bath',
  'bathProduct',
  'immersedBy',
  'load',
  'steriliser',
  'sealedBy',
  'store',
  'theatre',
  'surgeon',
  'missedPrevention',
  'condition',
] as const
export type ExposureType = (typeof exposureTypes)[number]

/** What was not as it should be, or is known to matter. */
export const conditions = [
  'notFirstOnList',
  'longOperation',
  'implant',
  'lateSoak',
  'notSoaked',
  'washedByHand',
  'notTakenApart',
  'lumenNotBrushed',
  'rinsedWithTapOrSoftened',
  'notMagnified',
  'packedWet',
  'inspectionNotPassed',
  'bathNotTested',
  'bathTooWeak',
  'bathTooOld',
  'notReleased',
  'indicatorFailed',
  'cycleNotLogged',
  'packDamaged',
] as const
export type Condition = (typeof conditions)[number]
