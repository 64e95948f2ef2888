import { after, before, describe } from 'node:test'
import { type PostgresServer, startPostgres } from '../support/postgres-server.ts'
import { postgresUnderTest } from '../support/store-under-test.ts'
import { lyingBySite } from './suite/by-site.ts'
import { journalContract } from './suite/contract.ts'

describe('the journal on PostgreSQL', () => {
  let server: PostgresServer | undefined
  before(async () => {
    server = await startPostgres('fast')
  })
  after(() => server?.[Symbol.asyncDispose]())
  const engine = postgresUnderTest(() => server?.url ?? '')
  journalContract(engine)
  lyingBySite(engine)
})
