import { type DeviceKnown, type SetKnown, deviceFold, setFold } from './catalogue/fold.ts'
import { type ItemKnown, itemFold } from './catalogue/item-fold.ts'
import { type BathKnown, bathFold } from './baths/bath-fold.ts'
import { type ImmersionKnown, immersionFold } from './baths/immersion-fold.ts'
import { type LotKnown, lotFold } from './consumables/lot-fold.ts'
import { type WashKnown, washFold } from './cleaning/fold.ts'
import { type OutletKnown, outletFold } from './cleaning/outlet-fold.ts'
import { type CaseKnown, caseFold } from './operating/fold.ts'
import { type ListKnown, listFold } from './planning/list-fold.ts'
import { type PersonKnown, personFold } from './people/fold.ts'
import { type AnyFold, closeFold } from './road.ts'
import { type RoundKnown, roundFold } from './round.ts'
import { type LoadKnown, loadFold } from './sterilising/load-fold.ts'
import { type LogKnown, logFold } from './sterilising/log-fold.ts'
import { type MachineKnown, machineFold } from './sterilising/machine-fold.ts'
import type { SubjectKind } from './subject.ts'
import { type RecallKnown, recallFold } from './tracing/fold.ts'
import { type PolicyKnown, type UnitKnown, policyFold, unitFold } from './unit/fold.ts'
import { type WoundKnown, woundFold } from './wounds/fold.ts'
import { type InvestigationKnown, investigationFold } from './wounds/investigation/fold.ts'
import { type SampleKnown, sampleFold } from './wounds/investigation/sample-fold.ts'
import { type ChartKnown, chartFold } from './wounds/surveillance/fold.ts'

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
  outlet: OutletKnown
  load: LoadKnown
  log: LogKnown
  bath: BathKnown
  immersion: ImmersionKnown
  lot: LotKnown
  case: CaseKnown
  list: ListKnown
  wound: WoundKnown
  sample: SampleKnown
  chart: ChartKnown
  investigation: InvestigationKnown
  recall: RecallKnown
}

/** What is known of a subject of this kind. */
export type KnownOf<Kind extends SubjectKind> = KnownByKind[Kind]

/** How each kind of subject is folded. */
export const folds: Readonly<Record<SubjectKind, AnyFold>> = Object.freeze({
  unit: closeFold(unitFold),
  policy: closeFold(policyFold),
  person: closeFold(personFold),
  device: closeFold(deviceFold),
  item: closeFold(itemFold),
  set: closeFold(setFold),
  machine: closeFold(machineFold),
  round: closeFold(roundFold),
  wash: closeFold(washFold),
  outlet: closeFold(outletFold),
  load: closeFold(loadFold),
  log: closeFold(logFold),
  bath: closeFold(bathFold),
  immersion: closeFold(immersionFold),
  lot: closeFold(lotFold),
  case: closeFold(caseFold),
  list: closeFold(listFold),
  wound: closeFold(woundFold),
  sample: closeFold(sampleFold),
  chart: closeFold(chartFold),
  investigation: closeFold(investigationFold),
  recall: closeFold(recallFold),
})
