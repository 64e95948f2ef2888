import { Beginning } from '../../components/Beginning.tsx'
import { useRounds } from '../../components/use-rounds.ts'

/** What comes next in a unit that is still empty; gone with its first round. */
export function Guide() {
  const { data: rounds } = useRounds()
  return rounds?.length === 0 ? <Beginning /> : null
}
