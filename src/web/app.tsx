import { QueryClient, QueryClientProvider } from '@tanstack/react-query'
import { RouterProvider } from 'react-router/dom'
import { isPassing } from './api/client.ts'
import { startOffline } from './offline/start-offline.ts'
import { router } from './routes.tsx'

const client = new QueryClient({
  defaultOptions: {
    queries: {
      staleTime: 30_000,
      networkMode: 'always',
      retry: (failures, error) => isPassing(error) && failures < 2,
    },
  },
})

startOffline(client)

export function App() {
  return (
    <QueryClientProvider client={client}>
      <RouterProvider router={router} />
    </QueryClientProvider>
  )
}
