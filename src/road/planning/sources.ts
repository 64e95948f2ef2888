import type { Source } from '#units/source.ts'

/* Where the figures of the planner come from. */

export const planningDefaults: Source = {
  title: 'Defaults of the planner',
  clause: 'a choice made here so that a first plan can be made; set your own hours and times',
  status: 'proposal',
}

export const orderOfList: Source = {
  title: 'Order of an operating list',
  clause: 'implant and clean first, infectious risk last: custom with weak evidence',
  status: 'commonPractice',
}

export const latexFirst: Source = {
  title: 'Patients allergic to latex',
  clause: 'first on the list, in a theatre where no latex was used since it was cleaned',
  status: 'commonPractice',
}

export const childrenEarly: Source = {
  title: 'Children on a list of adults',
  clause: 'early, so that they do not fast for long',
  status: 'commonPractice',
}

export const ownRecord: Source = {
  title: 'The record of this unit',
  clause: 'log-normal fit of its own operations',
  status: 'computed',
}

export const knownOfSets: Source = {
  title: 'The record of this unit',
  clause: 'where each set is in its round',
  status: 'computed',
}
