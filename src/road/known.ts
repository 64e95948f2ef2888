import { type DeviceKnown, type ItemKnown, type SetKnown, deviceFold, itemFold, setFold } from './catalogue/fold.ts'
import { type WashKnown, washFold } from './cleaning/fold.ts'
import type { Fold } from './fold.ts'
import { type CaseKnown, caseFold } from './operating/fold.ts'
import { type PersonKnown, personFold } from './people/fold.ts'
import { about } from './read-entry.ts'
import { type AnyFold, closeFold } from './road.ts'
import { type RoundKnown, roundFold } from './round.ts'
import { type LoadKnown, loadFold } from './sterilising/load-fold.ts'
import { type MachineKnown, machineFold } from './sterilising/machine-fold.ts'
import type { SubjectId, SubjectKind } from './subject.ts'
import { type RecallKnown, recallFold } from './tracing/fold.ts'
import { type PolicyKnown, type UnitKnown, policyFold, unitFold } from './unit/fold.ts'
import { type WoundKnown, woundFold } from './wounds/fold.ts'

interface KnownByKind {
  unit: UnitKnown
  policy: PolicyKnown
  person: PersonKnown
  device: DeviceKnown
  item: ItemKnown
  set: SetKnown
  machine: MachineKnown
  round: RoundKnown
  wash: WashKnown
  load: LoadKnown
  case: CaseKnown
  wound: WoundKnown
  recall: RecallKnown
}

/** What is known of a subject of this kind. */
export type KnownOf<Kind extends SubjectKind> = KnownByKind[Kind]

/**
 * A correction may move an entry from one subject to another. It is folded by both, and says something only of
 * the one that it names now.
 */
function foldWhatIsAboutIt<Kind extends SubjectKind, State extends { readonly id: SubjectId<Kind> }>(
  fold: Fold<Kind, State>,
): AnyFold {
  return closeFold<Kind, State>({
    ...fold,
    evolve: (state, entry) => (about(entry).subjects.includes(state.id) ? fold.evolve(state, entry) : state),
  })
}

/** How each kind of subject is folded. */
export const folds: Readonly<Record<SubjectKind, AnyFold>> = Object.freeze({
  unit: foldWhatIsAboutIt(unitFold),
  policy: foldWhatIsAboutIt(policyFold),
  person: foldWhatIsAboutIt(personFold),
  device: foldWhatIsAboutIt(deviceFold),
  item: foldWhatIsAboutIt(itemFold),
  set: foldWhatIsAboutIt(setFold),
  machine: foldWhatIsAboutIt(machineFold),
  round: foldWhatIsAboutIt(roundFold),
  wash: foldWhatIsAboutIt(washFold),
  load: foldWhatIsAboutIt(loadFold),
  case: foldWhatIsAboutIt(caseFold),
  wound: foldWhatIsAboutIt(woundFold),
  recall: foldWhatIsAboutIt(recallFold),
})
