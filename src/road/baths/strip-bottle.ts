import type { Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import { stripControls } from './limits.ts'
import { stripControl } from './sources.ts'

/** Strips tried when a bottle is opened: how many passed in full strength, how many failed in half strength. */
export interface BottleControls {
  readonly fullStrength: { readonly tried: number; readonly passed: number }
  readonly halfStrength: { readonly tried: number; readonly failed: number }
}

/** A bottle of strips is used only when every strip in full strength passed and every one in half strength failed. */
export function bottleProven({ fullStrength, halfStrength }: BottleControls, policy: Policy): readonly Found[] {
  const needed = policy.limit(stripControls)
  const found: Found[] = []
  if (fullStrength.tried < needed.value || halfStrength.tried < needed.value) {
    found.push({
      weight: 'notEvaluable',
      says: 'Too few strips were tried. Try as many as the policy asks in full strength, and as many in half strength.',
      measured: `${fullStrength.tried} and ${halfStrength.tried}`,
      limit: `${needed.value} and ${needed.value}`,
      source: needed.source,
    })
  }
  if (fullStrength.passed < fullStrength.tried) {
    found.push({
      weight: 'stop',
      says: 'A strip failed in full strength: reject this bottle and open another.',
      measured: `${fullStrength.passed} of ${fullStrength.tried} passed`,
      source: stripControl,
    })
  }
  if (halfStrength.failed < halfStrength.tried) {
    found.push({
      weight: 'stop',
      says: 'A strip passed in half strength, so it would pass a spent bath: reject this bottle and open another.',
      measured: `${halfStrength.failed} of ${halfStrength.tried} failed`,
      source: stripControl,
    })
  }
  return found
}
