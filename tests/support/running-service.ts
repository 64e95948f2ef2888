import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Instant } from '#road/instant.ts'
import type { Journal } from '#journal/journal.ts'
import { readConfig, type ServiceConfig } from '#service/config.ts'
import { openService } from '#service/open-service.ts'
import type { DemoSource } from '#service/unit/demo-source.ts'

export interface RunningService extends AsyncDisposable {
  readonly url: string
  /** What only the log may say: the failures of ours, by line. */
  readonly log: readonly string[]
  readonly journal: Journal
  /** The SQLite file of the record. */
  readonly file: string
  /** Asks with JSON; gives the status, and the body as it came. */
  readonly ask: (method: string, path: string, body?: unknown) => Promise<Answer>
  close(): Promise<void>
}

export interface Answer {
  readonly status: number
  readonly type: string
  readonly headers: Headers
  readonly body: unknown
}

export interface RunningOptions {
  readonly environment?: Readonly<Record<string, string>>
  readonly demo?: DemoSource | null
  readonly now?: () => Instant
  /** The folder of built screens; none, so that a test of the API needs no build. */
  readonly screens?: string | null
  /** Where to keep the record, for a test that opens it again; else a folder that is taken away at the end. */
  readonly folder?: string
}

/** A real service on a free port of the loopback, on a SQLite file of its own. Every answer is held against its schema. */
export async function runService(options: RunningOptions = {}): Promise<RunningService> {
  const folder = options.folder ?? mkdtempSync(join(tmpdir(), 'nilgrowth-service-'))
  const file = join(folder, 'unit.sqlite')
  const log: string[] = []
  const service = await openService({
    config: configOf({ NILGROWTH_DATA: file, PORT: '0', NILGROWTH_SIGN_IN: 'open', ...options.environment }),
    demo: options.demo ?? null,
    screens: options.screens ?? null,
    checkAnswers: true,
    log: (line) => log.push(line),
    ...(options.now === undefined ? {} : { now: options.now }),
  })
  const close = async (): Promise<void> => {
    await service.close()
    if (options.folder === undefined) rmSync(folder, { recursive: true, force: true })
  }
  return {
    url: service.url,
    log,
    journal: service.journal,
    file,
    ask: (method, path, body) => ask(service.url, { method, path, body }),
    close,
    [Symbol.asyncDispose]: close,
  }
}

function configOf(environment: Record<string, string>): ServiceConfig {
  const read = readConfig(environment)
  if (read.kind === 'unusable') throw new TypeError(read.says)
  return read.config
}

async function ask(
  url: string,
  { method, path, body }: { readonly method: string; readonly path: string; readonly body: unknown },
): Promise<Answer> {
  const response = await fetch(`${url}${path}`, {
    method,
    ...(body === undefined ? {} : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
  })
  const type = response.headers.get('content-type') ?? ''
  const text = await response.text()
  return {
    status: response.status,
    type,
    headers: response.headers,
    body: type.includes('json') ? (JSON.parse(text) as unknown) : text,
  }
}
