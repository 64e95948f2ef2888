import { queryOptions } from '@tanstack/react-query'
import type { WebhookRow } from '#service/api-types.ts'
import { ask } from './client.ts'

export const webhooksQuery = queryOptions({
  queryKey: ['webhooks'],
  queryFn: () => ask<readonly WebhookRow[]>('/api/webhooks'),
  refetchInterval: 5000,
})
