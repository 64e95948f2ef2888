import { createHash } from 'node:crypto'
import { AttachmentDigest } from '#road/attachment.ts'
import { demoSeed, demoSteps } from '#demo/demo-stories.ts'
import { demoUnit } from '#demo/demo-unit.ts'
import type { DemoSource } from './demo-source.ts'

/** The invented hospital, as the set-up takes it. */
export const demonstration: DemoSource = {
  total: demoSteps,
  steps: ({ site, now }) => demoUnit({ seed: demoSeed, until: now, site, digest }),
}

function digest(text: string): AttachmentDigest {
  return AttachmentDigest.parse(createHash('sha256').update(text, 'utf8').digest('hex'))
}
