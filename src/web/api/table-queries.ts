import { queryOptions } from '@tanstack/react-query'
import type { TableRow } from '#service/api-types.ts'
import { ask } from './client.ts'

export const tablesQuery = queryOptions({
  queryKey: ['tables'],
  queryFn: () => ask<readonly TableRow[]>('/api/tables'),
  staleTime: Infinity,
})
