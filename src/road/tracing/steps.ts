import type { Relation } from '../link.ts'
import type { SubjectKind } from '../subject.ts'

/**
 * One kind of step that a trace takes. Written as it is walked back, from what happened towards what may have caused
 * it; a walk forward takes the same steps the other way round, so that both find the same chains.
 */
export interface TraceStep {
  readonly effect: SubjectKind
  readonly relation: Relation
  readonly cause: SubjectKind
  /** At which end of the link the effect stands. */
  readonly effectIs: 'from' | 'to'
  /** The furthest that a walk back goes on this way, and so only the first step of a walk forward. */
  readonly last: boolean
}

/** Which links a trace follows, and which way cause and effect lie along them. */
export const traceSteps: readonly TraceStep[] = Object.freeze([
  { effect: 'wound', relation: 'woundOf', cause: 'case', effectIs: 'from', last: false },
  { effect: 'case', relation: 'openedFor', cause: 'round', effectIs: 'to', last: false },
  { effect: 'round', relation: 'inLoad', cause: 'load', effectIs: 'from', last: false },
  { effect: 'round', relation: 'washedIn', cause: 'wash', effectIs: 'from', last: false },
  { effect: 'recall', relation: 'recalls', cause: 'load', effectIs: 'from', last: false },
  { effect: 'round', relation: 'immersedIn', cause: 'immersion', effectIs: 'from', last: false },
  { effect: 'immersion', relation: 'inBath', cause: 'bath', effectIs: 'from', last: false },
  { effect: 'bath', relation: 'fromLot', cause: 'lot', effectIs: 'from', last: false },
  { effect: 'bath', relation: 'testedFrom', cause: 'lot', effectIs: 'from', last: false },
  { effect: 'recall', relation: 'recalls', cause: 'bath', effectIs: 'from', last: false },
  { effect: 'recall', relation: 'recalls', cause: 'lot', effectIs: 'from', last: false },
  // The patient before, and the set's round before: where a trace ends, or it would run through all history.
  { effect: 'round', relation: 'usedIn', cause: 'case', effectIs: 'from', last: true },
  { effect: 'round', relation: 'follows', cause: 'round', effectIs: 'from', last: true },
  { effect: 'load', relation: 'recalls', cause: 'recall', effectIs: 'to', last: true },
  // Everything hangs on these: they are named, and a trace goes through them only when it starts there.
  { effect: 'round', relation: 'of', cause: 'set', effectIs: 'from', last: true },
  { effect: 'set', relation: 'of', cause: 'device', effectIs: 'to', last: true },
  { effect: 'set', relation: 'of', cause: 'item', effectIs: 'to', last: true },
  { effect: 'item', relation: 'of', cause: 'device', effectIs: 'from', last: true },
  { effect: 'load', relation: 'ranOn', cause: 'machine', effectIs: 'from', last: true },
  { effect: 'wash', relation: 'ranOn', cause: 'machine', effectIs: 'from', last: true },
  { effect: 'round', relation: 'usedLot', cause: 'lot', effectIs: 'from', last: false },
  { effect: 'wash', relation: 'usedLot', cause: 'lot', effectIs: 'from', last: false },
  { effect: 'load', relation: 'usedLot', cause: 'lot', effectIs: 'from', last: false },
  { effect: 'case', relation: 'usedLot', cause: 'lot', effectIs: 'from', last: false },
  { effect: 'wash', relation: 'rinsedAt', cause: 'outlet', effectIs: 'from', last: false },
  { effect: 'immersion', relation: 'rinsedAt', cause: 'outlet', effectIs: 'from', last: false },
  { effect: 'outlet', relation: 'usedLot', cause: 'lot', effectIs: 'from', last: false },
  { effect: 'machine', relation: 'usedLot', cause: 'lot', effectIs: 'from', last: true },
  { effect: 'bath', relation: 'usedLot', cause: 'lot', effectIs: 'from', last: false },
  { effect: 'lot', relation: 'recalls', cause: 'recall', effectIs: 'to', last: true },
  { effect: 'bath', relation: 'recalls', cause: 'recall', effectIs: 'to', last: true },
  { effect: 'immersion', relation: 'by', cause: 'person', effectIs: 'from', last: true },
  { effect: 'bath', relation: 'exposed', cause: 'person', effectIs: 'from', last: true },
  { effect: 'wound', relation: 'by', cause: 'person', effectIs: 'from', last: true },
  { effect: 'case', relation: 'by', cause: 'person', effectIs: 'from', last: true },
  { effect: 'round', relation: 'by', cause: 'person', effectIs: 'from', last: true },
  { effect: 'load', relation: 'by', cause: 'person', effectIs: 'from', last: true },
  { effect: 'wash', relation: 'by', cause: 'person', effectIs: 'from', last: true },
  { effect: 'recall', relation: 'by', cause: 'person', effectIs: 'from', last: true },
] as const)
