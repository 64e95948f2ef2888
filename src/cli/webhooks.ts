import { webhooksOf } from '#service/webhooks/webhooks.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { refuse } from './known.ts'
import { onUnit, type UnitCall } from './on-unit.ts'

const usage = 'webhooks list | webhooks end ID | webhooks resume ID'

/** `webhooks`: who is told of entries, and how far each has come; ends one, or lets it go on. The service tells them. */
export function runWebhooks(args: string[], io: CommandIo): Promise<number> {
  return onUnit({ usage, mostWords: 2, makes: false, run }, args, io)
}

async function run({ journal, reader, site, words: [what, id] }: UnitCall, io: CommandIo): Promise<number> {
  const webhooks = webhooksOf({ journal, reader, site, now: clock, privateAllowed: false, say: () => undefined })
  if (what === 'list') {
    for (const each of await webhooks.list()) await io.stdout.write(`${JSON.stringify(each)}\n`)
    return exit.ok
  }
  if (id === undefined || (what !== 'end' && what !== 'resume')) return await refuse(io, `arguments: wanted ${usage}`)
  // Only the mark is set: it is the service that tells.
  const found = await (what === 'end' ? webhooks.remove(id) : webhooks.resume(id))
  if (!found) return await refuse(io, `ID: wanted the id of a webhook, current value is ${JSON.stringify(id)}`)
  return exit.ok
}
