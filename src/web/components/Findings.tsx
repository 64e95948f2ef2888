import { citeSource } from '#units/source.ts'
import type { Finding } from '#road/finding.ts'
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
  const figures = [
    finding.measured === undefined ? '' : `${words.finding.measured} ${finding.measured}`,
    finding.limit === undefined ? '' : `${words.finding.limit} ${finding.limit}`,
  ].filter((part) => part !== '')
  return (
    <div>
      <p>
        <strong>{words.finding.weights[finding.weight]}. </strong>
        {finding.says}
      </p>
      <p className="small soft">
        <Why
          of={{
            title: finding.says,
            value: finding.measured,
            limit: finding.limit,
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
