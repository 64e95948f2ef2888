import { bathProduct } from '../baths/products.ts'
import type { KnownOf } from '../known.ts'
import { hasGrown } from '../sterilising/load-fold.ts'
import { type SubjectId, type SubjectKind, subjectKey, subjectKind } from '../subject.ts'

/** What a subject is, in one line for a list or a picture. `nameOf` gives the names of sets and machines. */
export function subjectTitle(
  subject: SubjectId,
  state: KnownOf<SubjectKind> | undefined,
  nameOf: (id: SubjectId) => string | undefined,
): string {
  const key = subjectKey(subject)
  if (state === undefined) return key
  const title = titleMakers[subjectKind(subject)] as (state: KnownOf<SubjectKind>, names: Names) => string
  return title(state, (id) => (id === null ? undefined : (nameOf(id) ?? subjectKey(id)))) || key
}

type Names = (id: SubjectId | null) => string | undefined

const titleMakers: { readonly [K in SubjectKind]: (state: KnownOf<K>, names: Names) => string } = {
  unit: (unit) => unit.name,
  policy: (policy) => (policy.version === 'defaults' ? 'Policy, as delivered' : 'Policy, changed by this unit'),
  person: (person) => person.name,
  device: (device) => device.name,
  item: (item) => `Item ${item.serial ?? subjectKey(item.id)}`,
  set: (set) => set.name,
  machine: (machine) => machine.name,
  round: (round, nameOf) => {
    const set = nameOf(round.set)
    return `Round ${subjectKey(round.id)}${set === undefined ? '' : ` of ${set}`}`
  },
  wash: (wash) => {
    if (wash.how === null) return `Wash ${subjectKey(wash.id)}`
    return wash.how.kind === 'manual'
      ? `Wash ${subjectKey(wash.id)} by hand`
      : `Wash ${subjectKey(wash.id)}, program ${wash.how.program}`
  },
  outlet: (outlet) => outlet.name || `Outlet ${subjectKey(outlet.id)}`,
  load: (load, nameOf) => {
    const where = nameOf(load.machine)
    const failed = hasGrown(load) ? ', indicator grew' : ''
    return `Load ${subjectKey(load.id)}${where === undefined ? '' : ` on ${where}`}${failed}`
  },
  log: (log) => `Log ${subjectKey(log.id).slice(0, 8)}`,
  bath: (bath) => {
    const agent = bath.product === null ? undefined : bathProduct(bath.product)?.agent
    return `Bath ${subjectKey(bath.id)}${agent === undefined ? '' : `, ${agent}`}`
  },
  immersion: (immersion) => `Immersion ${subjectKey(immersion.id)}`,
  lot: (lot) => `Lot ${lot.number || subjectKey(lot.id)}${lot.name === '' ? '' : `, ${lot.name}`}`,
  case: (each) =>
    each.booked === null
      ? `Case ${subjectKey(each.id)}`
      : `Case ${subjectKey(each.id)}: ${each.booked.procedure}, ${each.booked.theatre}`,
  list: (list) => `List of ${list.plan?.day ?? subjectKey(list.id)}`,
  wound: (wound) => {
    if (wound.noted === null) return `Wound ${subjectKey(wound.id)}`
    const depth = { superficial: 'superficial', deep: 'deep', organSpace: 'organ or space' }[wound.noted.depth]
    return `Wound ${subjectKey(wound.id)}, ${depth}${wound.noted.organism === undefined ? '' : `, ${wound.noted.organism}`}`
  },
  sample: (sample) => `Sample ${subjectKey(sample.id)}${sample.taken === null ? '' : `, ${sample.taken.where}`}`,
  chart: (chart) => chart.set?.name ?? `Chart ${subjectKey(chart.id)}`,
  investigation: (each) => `Investigation ${subjectKey(each.id)}`,
  recall: (recall) =>
    `Recall of ${recall.lot !== null ? 'lot' : recall.bath === null ? 'load' : 'bath'} ${subjectKey(recall.lot ?? recall.bath ?? recall.load ?? recall.id)}`,
}
