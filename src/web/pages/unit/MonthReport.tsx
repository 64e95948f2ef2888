import { useState } from 'react'
import { PdfLink } from '../../components/PdfLink.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** The quality report of a month, the last whole one until another is chosen. */
export function MonthReport() {
  const times = useTimes()
  const [month, setMonth] = useState(() => lastMonth(times.toInput(new Date().toISOString())))
  const w = words.unit.month
  return (
    <section className="stack no-print" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p>{w.says}</p>
      <div className="row">
        <label className="field">
          {w.of}
          <input type="month" value={month} onChange={({ target }) => setMonth(target.value)} />
        </label>
        {month !== '' && <PdfLink path={`/api/months/${month}/report.pdf`}>{w.open}</PdfLink>}
      </div>
    </section>
  )
}

/** The month before that of a local moment, `2026-11-30T14:10`. */
function lastMonth(local: string): string {
  const [year = 0, month = 1] = local.split('-').map(Number)
  return month === 1 ? `${year - 1}-12` : `${year}-${String(month - 1).padStart(2, '0')}`
}
