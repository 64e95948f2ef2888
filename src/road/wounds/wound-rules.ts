import type { AnyRule } from '../rule.ts'
import { judgedByDefinition } from './rules/judged-by-definition.ts'
import { judgedInWindow } from './rules/judged-in-window.ts'
import { judgedWithReason } from './rules/judged-with-reason.ts'
import { woundLateForBacteria } from './rules/wound-late-for-bacteria.ts'
import { followUpSaysWhatWasHeard } from './rules/follow-up-says-what-was-heard.ts'
import { followUpAfterOperation } from './rules/follow-up-after-operation.ts'
import { chartCanTell } from './rules/chart-can-tell.ts'
import { headStartNotHasty } from './rules/head-start-not-hasty.ts'
import { modelOnEnoughInfections } from './rules/model-on-enough-infections.ts'
import { investigationClosedComplete } from './rules/investigation-closed-complete.ts'
import { hypothesisTestedWasStated } from './rules/hypothesis-tested-was-stated.ts'
import { investigationWindowSound } from './rules/investigation-window-sound.ts'

/** The rules of wounds, follow-up, charts and investigations, in the order in which they happen. */
export const woundRules: readonly AnyRule[] = Object.freeze([
  judgedByDefinition,
  judgedWithReason,
  judgedInWindow,
  woundLateForBacteria,
  followUpSaysWhatWasHeard,
  followUpAfterOperation,
  chartCanTell,
  headStartNotHasty,
  modelOnEnoughInfections,
  investigationWindowSound,
  hypothesisTestedWasStated,
  investigationClosedComplete,
])
