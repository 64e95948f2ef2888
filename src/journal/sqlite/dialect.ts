import type { DatabaseSync, SQLInputValue, StatementSync } from 'node:sqlite'
import {
  type CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  type Driver,
  type QueryResult,
  SqliteAdapter,
  SqliteIntrospector,
  SqliteQueryCompiler,
} from 'kysely'

interface Prepared {
  readonly statement: StatementSync
  readonly givesRows: boolean
}

/** Statements kept prepared. Lists of different lengths make different texts, so the store of them is bounded. */
const statementsKept = 300

/**
 * How transactions begin. Those that write take the lock at once: a deferred one can fail half-way when another
 * process has written since.
 */
export type Begin = 'BEGIN' | 'BEGIN IMMEDIATE'

/** Kysely over Node's own SQLite. */
export function nodeSqliteDialect(database: DatabaseSync, begin: Begin): Dialect {
  return {
    createDriver: () => new NodeSqliteDriver(database, begin),
    createQueryCompiler: () => new SqliteQueryCompiler(),
    createAdapter: () => new SqliteAdapter(),
    createIntrospector: (db) => new SqliteIntrospector(db),
  }
}

class NodeSqliteDriver implements Driver {
  readonly #database: DatabaseSync
  readonly #begin: Begin
  readonly #connection: NodeSqliteConnection

  constructor(database: DatabaseSync, begin: Begin) {
    this.#database = database
    this.#begin = begin
    this.#connection = new NodeSqliteConnection(database)
  }

  async init(): Promise<void> {}

  async acquireConnection(): Promise<DatabaseConnection> {
    return this.#connection
  }

  async beginTransaction(): Promise<void> {
    this.#database.exec(this.#begin)
  }

  async commitTransaction(): Promise<void> {
    this.#database.exec('COMMIT')
  }

  async rollbackTransaction(): Promise<void> {
    // SQLite has rolled back by itself after some errors, a full disk for one.
    if (this.#database.isTransaction) this.#database.exec('ROLLBACK')
  }

  async releaseConnection(): Promise<void> {}

  async destroy(): Promise<void> {
    this.#database.close()
  }
}

class NodeSqliteConnection implements DatabaseConnection {
  readonly #database: DatabaseSync
  readonly #prepared = new Map<string, Prepared>()

  constructor(database: DatabaseSync) {
    this.#database = database
  }

  async executeQuery<R>({ sql, parameters }: CompiledQuery): Promise<QueryResult<R>> {
    const { statement, givesRows } = this.#prepare(sql)
    const values = parameters as readonly SQLInputValue[]
    if (givesRows) return { rows: statement.all(...values) as R[] }
    return { rows: [], numAffectedRows: BigInt(statement.run(...values).changes) }
  }

  streamQuery(): never {
    throw new TypeError('Cannot stream from SQLite here: read page by page instead')
  }

  #prepare(sql: string): Prepared {
    const known = this.#prepared.get(sql)
    if (known !== undefined) {
      // Moved to the end, so that the first is always the one unused for longest.
      this.#prepared.delete(sql)
      this.#prepared.set(sql, known)
      return known
    }
    const statement = this.#database.prepare(sql)
    const prepared = { statement, givesRows: statement.columns().length > 0 }
    this.#prepared.set(sql, prepared)
    if (this.#prepared.size > statementsKept) {
      const oldest = this.#prepared.keys().next()
      if (!oldest.done) this.#prepared.delete(oldest.value)
    }
    return prepared
  }
}
