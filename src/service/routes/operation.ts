import { z } from 'zod'
import type { AddRoutes } from '../app-type.ts'
import type { ServiceContext } from '../context.ts'
import { type Gauge, metricsMediaType } from '../operation/metrics.ts'
import { sendProblem } from '../problem-reply.ts'
import { notReady } from '../problems.ts'
import { answers, rawAnswer } from '../schemas/answers.ts'

/** What a balancer and a monitor ask of the service. */
export const addOperationRoutes: AddRoutes = (app, context) => {
  const tags = ['operation']

  app.get(
    '/api/ready',
    {
      schema: {
        tags,
        summary: 'Whether requests may be sent here: the record can be read, and the service was not told to end',
        response: answers({ schema: z.object({ ready: z.literal(true) }), description: 'They may' }, 503),
      },
    },
    async (_request, reply) => {
      if (context.stopping.told) return sendProblem(reply, notReady('it was told to end'))
      // Read for its trouble, which is answered as such.
      await context.reader.head()
      return reply.send({ ready: true })
    },
  )

  app.get(
    '/api/metrics',
    {
      schema: {
        tags,
        summary: 'What the service counts of itself, for a monitor (OpenMetrics)',
        description:
          'Answered to programs on this computer, and elsewhere to who brings NILGROWTH_METRICS_TOKEN as a bearer token. ' +
          'Counts by route and status; nothing of persons, patients or subjects.',
        response: rawAnswer('The text', 'application/openmetrics-text'),
      },
    },
    async (_request, reply) =>
      reply
        .type(metricsMediaType)
        .serializer((value: unknown) => String(value))
        .send(context.metrics.text(await gaugesOf(context))),
  )
}

async function gaugesOf({
  version,
  engine,
  reader,
  live,
  backups,
  stopping,
}: ServiceContext): Promise<readonly Gauge[]> {
  const [head, { last, overdue }] = await Promise.all([reader.head(), backups.state()])
  const { rss, heapUsed } = process.memoryUsage()
  const { user, system } = process.cpuUsage()
  return [
    { name: 'nilgrowth_build', help: 'Which program this is.', value: 1, labels: { version, engine } },
    { name: 'nilgrowth_ready', help: 'Whether requests may be sent here.', value: stopping.told ? 0 : 1 },
    { name: 'nilgrowth_record_entries', help: 'Entries of the record.', value: head?.seq ?? 0 },
    { name: 'nilgrowth_open_streams', help: 'Screens that follow the record.', value: live.open() },
    { name: 'nilgrowth_backup_good', help: 'Whether the last backup was good.', value: last?.good === true ? 1 : 0 },
    { name: 'nilgrowth_backup_overdue', help: 'Whether a backup should have been made.', value: overdue ? 1 : 0 },
    { name: 'process_resident_memory_bytes', help: 'Memory of the process.', value: rss },
    { name: 'nodejs_heap_used_bytes', help: 'Memory in use by the program.', value: heapUsed },
    { name: 'process_cpu_seconds', help: 'Time of processors.', value: (user + system) / 1e6, counts: true },
    { name: 'process_uptime_seconds', help: 'Since the start.', value: process.uptime() },
  ]
}
