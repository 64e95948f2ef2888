import assert from 'node:assert/strict'
import { after, before, describe, test } from 'node:test'
import { kindNames } from '#road/kinds.ts'
import { Role } from '#road/people/entries.ts'
import { rightsOfKinds } from '#road/people/rights.ts'
import type { ApiProblem } from '#service/api-types.ts'
import { rolesOfRights, routeRights } from '#service/sign-in/route-rights.ts'
import type { CookieBrowser } from '../support/browser-cookies.ts'
import { SignedUnit } from '../support/signed-unit.ts'
import { sqliteService } from '../support/service-engines.ts'

/* Every kind of entry and every route of the API, asked for by one person of each role and by nobody, at a real service. */

let unit: SignedUnit
const people = new Map<Role, CookieBrowser>()
before(async () => {
  unit = await SignedUnit.open(sqliteService)
  for (const role of Role.options) people.set(role, await unit.person(`P${role}`, [role]))
})
after(() => unit[Symbol.asyncDispose]())

const browserOf = (role: Role): CookieBrowser => people.get(role) ?? assert.fail(role)

describe('every kind of entry by every role', () => {
  for (const kind of kindNames)
    for (const role of Role.options) {
      const may = rightsOfKinds[kind].includes(role)
      test(`${kind} by ${role}: ${may ? 'may' : 'may not'}`, async () => {
        // Without a usable body an entry that is allowed is held against its schema next, so that nothing is kept. The
        // right is asked first, or a body that is wrong would tell what the rules say to who may not know it.
        const entry = unit.entry(`p${role.toLowerCase()}`, kind, { unusable: true })
        const said = await browserOf(role).ask('POST', '/api/entries', entry)
        assert.deepEqual(
          [said.status, (said.body as ApiProblem).type],
          may ? [422, '/problems/unusable-input'] : [403, '/problems/may-not'],
        )
      })
    }
})

describe('every route by every role and by nobody', () => {
  for (const [route, right] of Object.entries(routeRights)) {
    const [method = '', path = ''] = route.split(' ')
    const address = path.replaceAll(/:(\w+)/g, 'nothing-such')
    // These end or change the session that asks.
    if (['/api/sign-out', '/api/unit', '/api/devices'].includes(path) && method === 'POST') continue
    // The test asks from the computer of the service.
    const isOpen = right === 'open' || right === 'operate'
    test(`${route} by nobody: ${isOpen ? 'open' : 'closed'}`, async () => {
      const { status } = await unit.browser().ask(method, address, method === 'GET' ? undefined : {})
      if (isOpen) assert.notEqual(status, 403)
      else assert.equal(status, 401)
    })
    for (const role of Role.options) {
      const may = right === 'open' || right === 'operate' || right === 'person' || rolesOfRights[right].includes(role)
      test(`${route} by ${role}: ${may ? 'open' : 'closed'}`, async () => {
        const said = await browserOf(role).ask(method, address, method === 'GET' ? undefined : {})
        if (may) assert.notEqual(said.status, 403)
        else assert.deepEqual([said.status, (said.body as ApiProblem).type], [403, '/problems/may-not'])
      })
    }
  }
})
