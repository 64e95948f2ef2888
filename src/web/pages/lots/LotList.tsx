import { Link } from 'react-router'
import { lotCares, lotEnds } from '#road/consumables/lot-care.ts'
import { subjectKey } from '#road/subject.ts'
import { FirstOf } from '../../components/FirstOf.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import type { LotInCare } from './use-lot-cares.ts'

/** Lots by kind, those that ask for something first. */
export function LotList({ lots }: { readonly lots: readonly LotInCare[] }) {
  if (lots.length === 0) return <p className="soft">{words.lots.noneHere}</p>
  return optionsOf(words.baths.lotKinds)
    .map(({ value, label }) => ({ label, value, its: lots.filter(({ row }) => row.state.of === value) }))
    .filter(({ its }) => its.length > 0)
    .map(({ value, label, its }) => <OfKind key={value} title={label} lots={its} />)
}

interface OfKindProps {
  readonly title: string
  readonly lots: readonly LotInCare[]
}

function OfKind({ title, lots }: OfKindProps) {
  const times = useTimes()
  const w = words.lots
  return (
    <section className="stack" aria-label={title}>
      <h2>{title}</h2>
      <FirstOf rows={lots.toSorted((a, b) => lotCares.indexOf(a.care) - lotCares.indexOf(b.care))} most={10}>
        {(shown) => (
          <ul className="lines">
            {shown.map(({ row: { subject, state }, care }) => {
              const ends = lotEnds(state)
              return (
                <li key={subject}>
                  <div className="grow">
                    <Link to={paths.lot(subject)}>{state.number || subjectKey(subject)}</Link>
                    <br />
                    <span className="soft">
                      {[state.name, ends === null ? '' : `${w.ends.toLowerCase()} ${times.day(ends)}`]
                        .filter((each) => each !== '')
                        .join(', ')}
                    </span>
                  </div>
                  <span className={tagOf(care)}>{w.cares[care]}</span>
                </li>
              )
            })}
          </ul>
        )}
      </FirstOf>
    </section>
  )
}

export function tagOf(care: LotInCare['care']): string {
  if (care === 'inUse') return 'tag'
  return care === 'expiring' || care === 'toBeControlled' || care === 'notYet' ? 'tag strong' : 'tag stop'
}
