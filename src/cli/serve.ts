import { troubleOf } from '#journal/store-trouble.ts'
import { readConfig, type ServiceConfig } from '#service/config.ts'
import { openService, type Service } from '#service/open-service.ts'
import { UnusableSetting } from '#service/unusable-setting.ts'
import { demonstration } from '#service/unit/demonstration.ts'
import { type CommandIo, exit } from './command.ts'

/** `serve` opens the service and stays until it is told to end. All its settings come from the environment. */
export async function runServe(args: string[], io: CommandIo): Promise<number> {
  if (args.length > 0) {
    await io.stderr.write(
      `arguments: wanted none (set PORT, HOST, NILGROWTH_DATA), current value is ${JSON.stringify(args.join(' '))}\n`,
    )
    return exit.unusableInput
  }
  const read = readConfig(process.env)
  if (read.kind === 'unusable') {
    await io.stderr.write(`${read.says}\n`)
    return exit.unusableInput
  }
  const service = await openOrSay(read.config, io)
  if (service === undefined) return exit.failed
  await io.stdout.write(`nilgrowth is open at ${service.url}\n`)
  await untilToldToEnd()
  await service.close()
  return exit.ok
}

/** Opens the service, or says in one line why it cannot be. */
async function openOrSay(config: ServiceConfig, io: CommandIo): Promise<Service | undefined> {
  try {
    return await openService({ config, demo: demonstration, log: (line) => io.stderr.write(`${line}\n`) })
  } catch (error) {
    const says = whyNotOpened(error, config)
    if (says === undefined) throw error
    await io.stderr.write(`${says}\n`)
    return undefined
  }
}

function whyNotOpened(error: unknown, { port, host, at }: ServiceConfig): string | undefined {
  if (error instanceof UnusableSetting) return error.message
  const code = error instanceof Error && 'code' in error ? error.code : undefined
  switch (code) {
    case 'EADDRINUSE':
      return `Port ${port} is in use by another program: choose another with PORT=${port + 1} npm start`
    case 'EACCES':
      return `Port ${port} may not be opened by this user: choose one above 1023 with PORT=4640 npm start`
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return `HOST: wanted an address of this machine, current value is ${JSON.stringify(host)}`
    case 'ECONNREFUSED':
      return 'DATABASE_URL: wanted a PostgreSQL server that answers, current value is one that refuses the connection'
    case 'ERR_SQLITE_ERROR':
      return (
        troubleOf(error)?.message ??
        `The record cannot be opened${at.kind === 'sqlite' ? ` in ${at.file}` : ''}: ${String(error)}. Choose another file with NILGROWTH_DATA`
      )
    default:
      return troubleOf(error)?.message
  }
}

/** The first signal ends the service in good order; more of them, as a terminal and its parent both send, change nothing. */
async function untilToldToEnd(): Promise<void> {
  await new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => resolve())
  })
}
