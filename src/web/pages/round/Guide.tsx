import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { knownQuery } from '../../api/queries.ts'
import { useRounds } from '../../components/use-rounds.ts'
import { Next } from '../../components/Next.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'

const steps = ['person', 'device', 'set', 'machine'] as const

/** What comes next in a unit that is still empty; gone with its first round. */
export function Guide() {
  const { data: rounds } = useRounds()
  const here = {
    person: (useQuery(knownQuery('person')).data?.length ?? 0) > 1,
    device: (useQuery(knownQuery('device')).data?.length ?? 0) > 0,
    set: (useQuery(knownQuery('set')).data?.length ?? 0) > 0,
    machine: (useQuery(knownQuery('machine')).data?.length ?? 0) > 0,
  }
  if (rounds === undefined || rounds.length > 0) return null
  const next = steps.find((step) => !here[step])
  return (
    <section className="stack" aria-label={words.unit.guide.title}>
      <h2>{words.unit.guide.title}</h2>
      {next === undefined ? (
        <Next says={words.unit.guide.begin} to={paths.washRoom} action={words.unit.guide.goWash} />
      ) : (
        <Next says={words.unit.guide[next]} to={paths.register(next)} action={words.unit.register[next]} />
      )}
      <ol className="lines">
        {steps.map((step) => (
          <li key={step}>
            <Link to={paths.register(step)}>{words.unit.guide[step]}</Link>
            {here[step] && <span className="tag good">{words.unit.guide.done}</span>}
          </li>
        ))}
      </ol>
    </section>
  )
}
