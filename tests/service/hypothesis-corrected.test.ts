import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { v7 } from 'uuid'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { KnownOf } from '#road/known.ts'
import type { RunningService } from '../support/running-service.ts'
import { answerOf, runWoundUnit, surgeon } from '../support/wound-store.ts'
import { present, record, type Sending } from './hand.ts'

/* A hypothesis that is corrected keeps what its test showed, in whatever order the two were entered and for whatever times. */

let service: RunningService

before(async () => {
  service = await runWoundUnit({ present, days: [], infected: [] })
})

after(async () => {
  await service.close()
})

async function told<K extends KindName>(kind: K, clock: string, body: Bodies[K], sending: Sending = {}): Promise<void> {
  const answer = await record(service, kind, clock, body, { by: surgeon.id, ...sending })
  assert.equal(answer.status, 201, `${kind}: ${JSON.stringify(answer.body)}`)
}

type Told =
  | { readonly kind: 'stated' | 'corrected'; readonly clock: string; readonly corrects?: number }
  | { readonly kind: 'tested'; readonly clock: string; readonly of: number }
  | { readonly kind: 'withdrawn'; readonly clock: string; readonly corrects: number }

/** Entries in the order in which they are sent; a number is the place of another among them. */
const rows: readonly { readonly name: string; readonly given: readonly Told[]; readonly tested: boolean | null }[] = [
  {
    name: 'corrected after its test',
    given: [
      { kind: 'stated', clock: '10:00' },
      { kind: 'tested', clock: '11:00', of: 0 },
      { kind: 'corrected', clock: '10:00', corrects: 0 },
    ],
    tested: true,
  },
  {
    name: 'corrected after its test, and for a time after it',
    given: [
      { kind: 'stated', clock: '10:00' },
      { kind: 'tested', clock: '11:00', of: 0 },
      { kind: 'corrected', clock: '12:00', corrects: 0 },
    ],
    tested: true,
  },
  {
    name: 'corrected twice, the result naming the first words',
    given: [
      { kind: 'stated', clock: '10:00' },
      { kind: 'tested', clock: '11:00', of: 0 },
      { kind: 'corrected', clock: '10:00', corrects: 0 },
      { kind: 'corrected', clock: '10:00', corrects: 2 },
    ],
    tested: true,
  },
  {
    name: 'corrected before its test, at a screen that had not seen it',
    given: [
      { kind: 'stated', clock: '10:00' },
      { kind: 'corrected', clock: '10:00', corrects: 0 },
      { kind: 'tested', clock: '11:00', of: 0 },
    ],
    tested: true,
  },
  {
    name: 'corrected, and tested by its new words',
    given: [
      { kind: 'stated', clock: '10:00' },
      { kind: 'corrected', clock: '10:00', corrects: 0 },
      { kind: 'tested', clock: '11:00', of: 1 },
    ],
    tested: true,
  },
  {
    name: 'corrected, and never tested',
    given: [
      { kind: 'stated', clock: '10:00' },
      { kind: 'corrected', clock: '10:00', corrects: 0 },
    ],
    tested: false,
  },
  {
    name: 'withdrawn after its test',
    given: [
      { kind: 'stated', clock: '10:00' },
      { kind: 'tested', clock: '11:00', of: 0 },
      { kind: 'withdrawn', clock: '12:00', corrects: 0 },
    ],
    tested: null,
  },
]

const seen = 'A sample of it grew the same.'

for (const [index, { name, given, tested }] of rows.entries()) {
  const shown = tested === null ? 'is gone with it' : tested ? 'is shown with it' : 'is not there'
  test(`${name}: the result ${shown}`, async () => {
    const investigation = `investigation:${index + 1}` as const
    const why = 'Four in one theatre'
    const opening = { investigation, why, because: 'worry', lead: surgeon.id } as const
    await told('investigation-opened', '09:00', { ...opening, wounds: [] })
    const ids = given.map(() => v7())
    for (const [place, each] of given.entries()) {
      // oxlint-disable-next-line no-await-in-loop: in their order
      await tell(investigation, each, { id: ids[place] ?? '', of: (other) => ids[other] ?? '' })
    }
    const { state } = await answerOf<{ state: KnownOf<'investigation'> }>(service, `/api/known/${investigation}`)
    const standing = state.hypotheses.map((each) => [each.says, each.test?.result])
    const says = given.some((each) => each.kind === 'corrected') ? 'The rinse water' : 'The rinse'
    assert.deepEqual(standing, tested === null ? [] : [[says, tested ? 'supported' : undefined]])
  })
}

async function tell(
  investigation: KnownOf<'investigation'>['id'],
  each: Told,
  { id, of }: { readonly id: string; readonly of: (place: number) => string },
): Promise<void> {
  switch (each.kind) {
    case 'stated':
      return await told(
        'hypothesis-stated',
        each.clock,
        { investigation, says: 'The rinse', standing: 'tested' },
        { id },
      )
    case 'corrected': {
      const corrects = of(each.corrects ?? 0)
      const body = { investigation, says: 'The rinse water', standing: 'tested' } as const
      return await told('hypothesis-stated', each.clock, body, { id, corrects })
    }
    case 'tested': {
      const hypothesis = of(each.of) as Bodies['hypothesis-tested']['hypothesis']
      return await told(
        'hypothesis-tested',
        each.clock,
        { investigation, hypothesis, result: 'supported', why: seen },
        { id },
      )
    }
    case 'withdrawn':
      return await told(
        'entry-withdrawn',
        each.clock,
        { why: 'Entered by mistake' },
        { id, corrects: of(each.corrects) },
      )
  }
}
