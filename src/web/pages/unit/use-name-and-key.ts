import { useState } from 'react'
import { slug } from '../../make-key.ts'

/** The key follows the name until somebody writes one of their own. */
export function useNameAndKey() {
  const [name, onName] = useState('')
  const [own, onKey] = useState<string | null>(null)
  return { name, keyText: own ?? slug(name), onName, onKey }
}
