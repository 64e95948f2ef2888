import type { KindName } from './kinds.ts'

/*
 * What may be recorded at a screen that has no network. What has happened is kept at the screen and sent later: leaving it
 * out would lose it, and the rules say what they find when it arrives. A decision is taken on the record as it stands, and
 * that cannot be asked: it waits for the network, it is not sent later by itself.
 */

/** Kinds that are not recorded without the network, each with the reason. Every decision is one of them. */
export const notWithoutNetwork: Readonly<Partial<Record<KindName, string>>> = Object.freeze({
  'load-decided':
    'A pack is released on what the record knows of its load, its machine and every recall at that moment.',
  'immersion-decided':
    'What was immersed is released on what the record knows of the bath, its strips and every recall.',
  'pack-sealed': 'A pack is sealed on what the record knows of its cleaning and of every instrument that is in it.',
  'implant-decided': 'An implant is let through on what the record knows of the indicators of its load.',
  'machine-returned': 'A machine comes back into use on the tests that the record holds after its repair.',
  'recall-closed':
    'A recall is closed when the record accounts for every pack, also for those that others account for.',
  'limit-changed': 'A limit binds every screen from that moment, and a second person confirms it.',
  'list-planned': 'A list is planned on the sets and machines as the record knows them.',
  'wound-judged': 'A wound is judged on all that is noted of it, also by others.',
  'chart-set': 'A chart is set on the cases that the record counts.',
  'chart-restarted': 'A chart is restarted on the cases that the record counts.',
  'risk-model-kept': 'A model is kept on the cases that the record counts.',
  'investigation-window-set': 'The days of an investigation are held against the wounds that the record has.',
  'investigation-closed': 'An investigation is closed on every step and action that the record holds.',
  // Facts, but of a unit that is only now coming to be, or of who may do what: they stand before everything that is recorded.
  'unit-opened': 'A unit is opened once, by the service.',
  'person-left': 'A person who leaves is signed out everywhere, at once.',
})

/** Facts whose use is that others learn of them at once: without the network they are kept, and nobody learns of them. */
export const othersMustBeTold: readonly KindName[] = Object.freeze([
  'recall-opened',
  'bath-recalled',
  'lot-recalled',
  'lot-quarantined',
  'lot-withdrawn',
  'machine-withdrawn',
  'biological-read',
  'bath-retired',
  'strip-read',
  'patient-facts-noted',
  'item-sent-out',
] satisfies readonly KindName[])
