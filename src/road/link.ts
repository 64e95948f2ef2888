import type { EntryId } from './entry.ts'
import type { Instant } from './instant.ts'
import type { SubjectId } from './subject.ts'

/**
 * How two subjects hang together, read from left to right: round `of` set, round `openedFor` case.
 * The list is closed: a walk names the relations that it follows.
 */
export const relations = [
  'of', // round of set, item of device, set contains device, item in set
  'follows', // round follows the round before it
  'usedIn', // round began by use in case
  'washedIn', // round washed in wash
  'ranOn', // wash or load ran on machine
  'inLoad', // round in load
  'aeratedIn', // load aerated in machine
  'rinsedAt', // wash or immersion took its water at outlet
  'inBath', // immersion in bath
  'immersedIn', // round immersed in immersion
  'fromLot', // bath from lot
  'testedFrom', // bath tested with strips of lot
  'usedLot', // round, wash, load, machine, outlet or bath used lot; case placed an implant of lot
  'exposed', // spill of a bath exposed person
  'provenBy', // load proven by log
  'openedFor', // round opened for case
  'woundOf', // wound of case
  'takenFrom', // sample from outlet, bath, machine, set, item or lot
  'looksInto', // investigation into wound
  'recalls', // recall because of load
  'by', // step on a subject by person
] as const
export type Relation = (typeof relations)[number]

export interface Link {
  readonly from: SubjectId
  readonly relation: Relation
  readonly to: SubjectId
  readonly at: Instant
  /** The entry that made the link. */
  readonly entry: EntryId
}
