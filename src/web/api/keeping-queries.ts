import { queryOptions } from '@tanstack/react-query'
import type { BackupsAnswer, SealsAnswer } from '#service/api-types.ts'
import { ask } from './client.ts'

export const sealsQuery = queryOptions({
  queryKey: ['seals'],
  queryFn: () => ask<SealsAnswer>('/api/seals'),
})

export const backupsQuery = queryOptions({
  queryKey: ['backups'],
  queryFn: () => ask<BackupsAnswer>('/api/backups'),
  refetchInterval: (query) => (query.state.data?.running ? 1000 : query.state.error === null && 60_000),
})
