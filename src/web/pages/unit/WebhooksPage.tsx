import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { WebhookMade, WebhookRow, WebhookTried } from '#service/api-types.ts'
import { post } from '../../api/client.ts'
import { webhooksQuery } from '../../api/webhook-queries.ts'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { WebhookForm } from './WebhookForm.tsx'

/** Who is told of entries, how far each has come, and what came of it. */
export function WebhooksPage() {
  const w = words.webhooks
  const client = useQueryClient()
  const { data, error } = useQuery(webhooksQuery)
  const add = useMutation({
    mutationFn: (wanted: { readonly url: string; readonly kinds: readonly string[] }) =>
      post<WebhookMade>('/api/webhooks', wanted),
    onSuccess: () => void client.invalidateQueries({ queryKey: webhooksQuery.queryKey }),
  })
  return (
    <Page title={w.title} lead={w.lead}>
      {error !== null && <ProblemNote error={error} />}
      {data?.length === 0 && <p className="empty">{w.none}</p>}
      {data?.map((webhook) => (
        <OneWebhook key={webhook.id} webhook={webhook} />
      ))}
      {add.data !== undefined && (
        <section className="sheet stack">
          <p>{w.secret}</p>
          <output className="key">{add.data.secret}</output>
        </section>
      )}
      {error === null && <WebhookForm busy={add.isPending} send={add.mutate} />}
      {add.error !== null && <ProblemNote error={add.error} />}
    </Page>
  )
}

function OneWebhook({ webhook }: { readonly webhook: WebhookRow }) {
  const w = words.webhooks
  const client = useQueryClient()
  const times = useTimes()
  const again = (): void => void client.invalidateQueries({ queryKey: webhooksQuery.queryKey })
  const act = useMutation({
    mutationFn: (what: 'end' | 'resume') => post(`/api/webhooks/${webhook.id}/${what}`, {}),
    onSuccess: again,
  })
  const test = useMutation({ mutationFn: () => post<WebhookTried>(`/api/webhooks/${webhook.id}/test`, {}) })
  const { dead, failures, nextAt, behind, recent } = webhook
  return (
    <section className="sheet stack" aria-label={webhook.url}>
      <h2 className="key">{webhook.url}</h2>
      <p>
        {w.of(webhook.kinds)}. {behind === 0 ? w.upToDate : w.behind(behind)}.
      </p>
      {dead && (
        <p className="problem" role="alert">
          {w.dead}
        </p>
      )}
      {!dead && failures > 0 && nextAt !== null && (
        <p className="caution">{w.failing(failures, times.moment(nextAt))}</p>
      )}
      <div className="row">
        <button type="button" disabled={test.isPending} onClick={() => test.mutate()}>
          {w.test}
        </button>
        {failures > 0 && (
          <button type="button" disabled={act.isPending} onClick={() => act.mutate('resume')}>
            {w.resume}
          </button>
        )}
        <button type="button" disabled={act.isPending} onClick={() => act.mutate('end')}>
          {w.end}
        </button>
      </div>
      {test.data !== undefined && <output>{w.tested(test.data.says)}</output>}
      {(act.error ?? test.error) !== null && <ProblemNote error={act.error ?? test.error ?? new Error('')} />}
      {recent.length > 0 && (
        <details>
          <summary>{w.recent(recent.length)}</summary>
          <ul className="lines">
            {recent.map(({ message, kind, at, says }) => (
              <li key={`${message} ${at}`}>
                <div className="grow">{w.delivery(words.unit.entryKinds[kind] ?? kind, says)}</div>
                <span className="soft small">{times.moment(at)}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}
