import { citeSource } from '#units/source.ts'
import type { Finding } from '#road/finding.ts'
import { useInUnitTime } from '../session/use-in-unit-time.ts'
import { words } from '../words/words.ts'
import { WeightMark } from './WeightMark.tsx'
import { Why } from './Why.tsx'

const order = ['stop', 'notEvaluable', 'caution', 'note'] as const

/** What the rules found, the heaviest first: word, shape, figure, limit, source. */
export function Findings({ findings, label }: { readonly findings: readonly Finding[]; readonly label?: string }) {
  const sorted = findings.toSorted((a, b) => order.indexOf(a.weight) - order.indexOf(b.weight))
  return (
    <ul className="plain findings" aria-label={label ?? words.finding.label}>
      {sorted.map((finding) => (
        <li key={`${finding.rule} ${finding.says}`} className={`weighs-${finding.weight}`}>
          <WeightMark weight={finding.weight} />
          <FindingText finding={finding} />
        </li>
      ))}
    </ul>
  )
}

function FindingText({ finding }: { readonly finding: Finding }) {
  const inUnitTime = useInUnitTime()
  const says = inUnitTime(finding.says)
  const measured = finding.measured === undefined ? undefined : inUnitTime(finding.measured)
  const limit = finding.limit === undefined ? undefined : inUnitTime(finding.limit)
  const figures = [
    measured === undefined ? '' : `${words.finding.measured} ${measured}`,
    limit === undefined ? '' : `${words.finding.limit} ${limit}`,
  ].filter((part) => part !== '')
  return (
    <div>
      <p>
        <strong>{words.finding.weights[finding.weight]}. </strong>
        {says}
      </p>
      <p className="small soft">
        <Why
          of={{
            title: says,
            value: measured,
            limit,
            rule: finding.rule,
            source: finding.source,
          }}
        >
          {figures.length > 0 ? figures.join(', ') : finding.rule}
        </Why>{' '}
        {citeSource(finding.source)}
      </p>
    </div>
  )
}
