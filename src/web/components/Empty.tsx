import type { ReactNode } from 'react'

export function Empty({ children }: { readonly children: ReactNode }) {
  return <div className="empty">{children}</div>
}
