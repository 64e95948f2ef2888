import type { Facts } from './facts.ts'
import { type SubjectId, subjectKey, subjectKind } from './subject.ts'

/** How a finding names a pack: the name of its set, and the round that is on its label. */
export function packName(facts: Facts, id: SubjectId<'round'>): string {
  const set = facts.known(id)?.set ?? null
  const name = set === null ? undefined : facts.known(set)?.name
  return name === undefined || name === '' ? subjectKey(id) : `${name} (${subjectKey(id)})`
}

/** How a finding names a recall: by what is recalled, where that is known, and by its own key. */
export function recallName(facts: Facts, id: SubjectId<'recall'>): string {
  const recall = facts.known(id)
  const what = recall?.lot ?? recall?.bath ?? recall?.load ?? null
  if (what === null || subjectKey(what) === subjectKey(id)) {
    return what === null ? `recall ${subjectKey(id)}` : `recall of ${subjectKind(what)} ${subjectKey(what)}`
  }
  return `recall ${subjectKey(id)} of ${subjectKind(what)} ${subjectKey(what)}`
}

export function machineName(facts: Facts, id: SubjectId<'machine'>): string {
  return facts.known(id)?.name || subjectKey(id)
}

/** `1 h 20 min`, `35 min`: a time as people say it. */
export function spoken(minutes: number): string {
  const whole = Math.round(minutes)
  if (whole < 60) return `${whole} min`
  if (whole < 48 * 60) {
    const rest = whole % 60
    return rest === 0 ? `${Math.floor(whole / 60)} h` : `${Math.floor(whole / 60)} h ${rest} min`
  }
  return `${Math.round(whole / 1440)} days`
}

/** A figure without the noise of binary arithmetic. */
export function figure(value: number, digits = 2): string {
  return String(Number(value.toFixed(digits)))
}
