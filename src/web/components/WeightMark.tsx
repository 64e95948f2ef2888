import type { FindingWeight } from '#road/finding.ts'

/** Four shapes that differ in outline, so that they are told apart without colour. */
export function WeightMark({ weight }: { readonly weight: FindingWeight }) {
  return (
    <svg viewBox="0 0 24 24" aria-hidden="true">
      {shapes[weight]}
    </svg>
  )
}

const line = { fill: 'none', stroke: 'currentColor', strokeWidth: 2 } as const

const shapes: Record<FindingWeight, React.ReactNode> = {
  stop: (
    <>
      <rect x="2" y="2" width="20" height="20" fill="currentColor" />
      <rect x="6" y="10" width="12" height="4" fill="var(--paper)" />
    </>
  ),
  caution: (
    <>
      <path d="M12 3 22 21 2 21Z" {...line} />
      <path d="M12 9v6M12 17v2" {...line} />
    </>
  ),
  note: <circle cx="12" cy="12" r="4" {...line} />,
  notEvaluable: (
    <>
      <circle cx="12" cy="12" r="9.5" {...line} strokeDasharray="4 3" />
      <path d="M7 12h10" {...line} />
    </>
  ),
}
