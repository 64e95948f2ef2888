import { useSearchParams } from 'react-router'

/** Why a recall is wanted of what this page shows, when somebody was sent here to open one. */
export function useAskedRecall(): string | null {
  return useSearchParams()[0].get('recall')
}

/** From when on, when the beginning of the fault was named too. */
export function useAskedSince(): string | null {
  return useSearchParams()[0].get('since')
}
