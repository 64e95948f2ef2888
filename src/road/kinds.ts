import { bathKinds } from './baths/entries.ts'
import { catalogueKinds } from './catalogue/entries.ts'
import { cleaningKinds } from './cleaning/entries.ts'
import { consumableKinds } from './consumables/entries.ts'
import { machineCareKinds } from './consumables/machine-entries.ts'
import { waterKinds } from './cleaning/water-entries.ts'
import type { KeptEntry, SentEntry } from './entry.ts'
import type { EntryKind } from './kind.ts'
import { gasKinds } from './gases/entries.ts'
import { operatingKinds } from './operating/entries.ts'
import { preventionKinds } from './operating/prevention-entries.ts'
import { packingKinds } from './packing/entries.ts'
import { hoursKinds, planningKinds } from './planning/entries.ts'
import { peopleKinds } from './people/entries.ts'
import { sterilisingKinds } from './sterilising/entries.ts'
import { storingKinds } from './storing/entries.ts'
import { tracingKinds } from './tracing/entries.ts'
import { unitKinds } from './unit/entries.ts'
import { woundKinds } from './wounds/entries.ts'
import { followUpKinds } from './wounds/follow-up/entries.ts'
import { investigationKinds } from './wounds/investigation/entries.ts'
import { sampleKinds } from './wounds/investigation/sample-entries.ts'
import { surveillanceKinds } from './wounds/surveillance/entries.ts'

/** Everything that may be recorded, in the order of the loop. */
export const entryKinds = Object.freeze([
  ...unitKinds,
  ...hoursKinds,
  ...peopleKinds,
  ...catalogueKinds,
  ...cleaningKinds,
  ...waterKinds,
  ...packingKinds,
  ...sterilisingKinds,
  ...gasKinds,
  ...bathKinds,
  ...consumableKinds,
  ...machineCareKinds,
  ...storingKinds,
  ...operatingKinds,
  ...preventionKinds,
  ...planningKinds,
  ...followUpKinds,
  ...woundKinds,
  ...sampleKinds,
  ...surveillanceKinds,
  ...investigationKinds,
  ...tracingKinds,
] as const)

type AnyKind = (typeof entryKinds)[number]
export type KindName = AnyKind['kind']

/** The names of all kinds, for rules that look at every entry. */
export const kindNames: readonly KindName[] = Object.freeze(entryKinds.map((kind) => kind.kind))

/** The body of each kind of entry, by the kind's name. */
export type Bodies = {
  [K in AnyKind as K['kind']]: K extends EntryKind<string, infer Body> ? Body : never
}

type Typed<Entry> = { [K in KindName]: Omit<Entry, 'kind' | 'body'> & { kind: K; body: Bodies[K] } }[KindName]

/** A sent entry whose body has been checked against its kind. */
export type TypedSent = Typed<SentEntry>
/** A kept entry whose body has been checked against its kind. */
export type TypedKept = Typed<KeptEntry>
