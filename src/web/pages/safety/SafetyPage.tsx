import { useQuery } from '@tanstack/react-query'
import { knownQuery } from '../../api/queries.ts'
import { Page } from '../../components/Page.tsx'
import { Next } from '../../components/Next.tsx'
import { words } from '../../words/words.ts'
import { exposuresOf, useDays } from './exposures.ts'
import { ExposureForm } from './ExposureForm.tsx'
import { ByPerson } from './ByPerson.tsx'
import { ByPlace } from './ByPlace.tsx'
import { Spills } from './Spills.tsx'

/** What the staff breathed, by person and place, and what was spilled. */
export function SafetyPage() {
  const w = words.safety
  const { data: people = [] } = useQuery(knownQuery('person'))
  const days = useDays()
  const measured = exposuresOf(people)
  const due = people.find(({ state }) => days(state).some((row) => row.surveillance.length > 0))
  return (
    <Page title={w.title} lead={w.lead}>
      <Next says={due === undefined ? w.nextMeasure : w.nextSurveillance(due.state.name)} />
      <ByPerson people={people} />
      <ByPlace measured={measured} />
      <section className="sheet stack" aria-label={w.measure}>
        <h2>{w.measure}</h2>
        <ExposureForm key={measured.length} people={people} />
      </section>
      <Spills />
    </Page>
  )
}
