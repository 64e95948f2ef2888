import { words } from '../words/words.ts'

export function Caution() {
  return <p className="caution">{words.caution}</p>
}
