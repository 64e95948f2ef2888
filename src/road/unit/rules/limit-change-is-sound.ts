import { limits } from '../../limits.ts'
import type { Limit } from '../../policy.ts'
import { defineRule, type Found } from '../../rule.ts'
import type { LimitValue } from '../fold.ts'
import { recordPractice } from '../limits.ts'

/** A limit is changed only if it exists, to a value of its own type within sane bounds. */
export const limitChangeIsSound = defineRule({
  id: 'limit-change-is-sound',
  says: 'A limit is changed only if it exists, to a value of its own type within the bounds that are safe to set.',
  on: ['limit-changed'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    const limit = limits.find((each) => each.id === body.limit)
    if (limit === undefined) return [stop(`There is no limit named "${body.limit}". Choose one from the list.`)]
    if (typeof body.value !== typeof limit.value) {
      return [stop(`${limit.title}: wanted a ${typeof limit.value}, got ${JSON.stringify(body.value)}.`)]
    }
    const wanted = outOfBounds(limit, body.value)
    return wanted === undefined
      ? []
      : [
          {
            ...stop(`${limit.title}: this value is outside what may be set. Set ${wanted}.`),
            measured: `${JSON.stringify(body.value)} ${limit.unit}`,
            limit: wanted,
          },
        ]
  },
})

function outOfBounds(limit: Limit, value: LimitValue): string | undefined {
  const { allowed } = limit
  if (allowed === undefined) return undefined
  if ('oneOf' in allowed) {
    return typeof value === 'string' && allowed.oneOf.includes(value)
      ? undefined
      : `one of ${allowed.oneOf.join(' | ')}`
  }
  const within = typeof value === 'number' && value >= allowed.from && value <= allowed.to
  return within ? undefined : `${allowed.from} to ${allowed.to} ${limit.unit}`
}

function stop(says: string): Found {
  return { weight: 'stop', says, source: recordPractice }
}
