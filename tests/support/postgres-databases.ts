import { Socket } from 'node:net'
import { Client } from 'pg'
import { openEngine } from '#journal/open-journal.ts'

/** Databases of a test on one server, each an own one, so that no test finds what another has left. */
export interface Databases {
  /** The address of one with nothing in it. */
  empty(): Promise<string>
  /** One with the tables that the program makes, and no row of a record. */
  withTables(): Promise<string>
  /** Done with: it is dropped when some more are, since the connections of its test end a moment later. */
  leave(url: string): Promise<void>
}

const leftAtMost = 8

/**
 * The tables are made by the program once and copied for every test: making them takes several times as long. That the program
 * makes them where nothing is, the tests of the migrations see.
 */
export function databasesOf(server: () => string): Databases {
  const ask = asker(server)
  let made = 0
  let template: Promise<string> | undefined
  const left: string[] = []

  const create = async (of: string): Promise<string> => {
    made += 1
    const name = `test_${process.pid}_${made}`
    await ask(`CREATE DATABASE ${name} TEMPLATE ${of}`)
    return addressOf(server(), name)
  }
  const makeTemplate = async (): Promise<string> => {
    const url = await create('template0')
    await (await openEngine({ kind: 'postgres', url })).close()
    return nameOf(url)
  }
  return {
    empty: () => create('template0'),
    withTables: async () => await create(await (template ??= makeTemplate())),
    async leave(url) {
      left.push(nameOf(url))
      const oldest = left.length > leftAtMost ? left.shift() : undefined
      if (oldest !== undefined) await ask(`DROP DATABASE ${oldest} WITH (FORCE)`)
    },
  }
}

/** Asks on one connection, made anew after the server was gone: a connection costs as much as what is asked. */
function asker(server: () => string): (statement: string) => Promise<void> {
  let connection: Promise<{ client: Client; socket: Socket }> | undefined
  let asking = 0

  const connect = async () => {
    const socket = new Socket()
    const client = new Client({ connectionString: server(), stream: () => socket })
    const gone = () => void (connection = undefined)
    client.on('error', gone)
    client.on('end', gone)
    await client.connect()
    return { client, socket }
  }
  return async (statement) => {
    asking += 1
    try {
      const { client, socket } = await (connection ??= connect())
      socket.ref()
      await client.query(statement)
    } finally {
      asking -= 1
      // Idle it keeps no test from ending.
      if (asking === 0) await connection?.then(({ socket }) => socket.unref())
    }
  }
}

function addressOf(server: string, name: string): string {
  const url = new URL(server)
  url.pathname = `/${name}`
  return url.href
}

function nameOf(url: string): string {
  return new URL(url).pathname.slice(1)
}
