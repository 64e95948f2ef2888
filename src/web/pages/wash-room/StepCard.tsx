import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { DeviceKnown } from '#road/catalogue/fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery, subjectQuery } from '../../api/queries.ts'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'

/** What each device of the set in hand asks for: parts, lumens, insulation, optic. */
export function StepCard({ set }: { readonly set: SubjectId<'set'> }) {
  const { data: known } = useQuery(subjectQuery(set))
  const { data: devices = [] } = useQuery(knownQuery('device'))
  if (known === undefined) return null
  return (
    <aside className="stack" aria-label={words.wash.card}>
      <h3>{words.wash.card}</h3>
      <ul className="lines">
        {known.state.countSheet.map((line) => {
          const device = devices.find((row) => row.subject === line.device)?.state
          return (
            <li key={line.device}>
              <div className="grow">
                <strong>
                  {line.count} ×{' '}
                  <Link
                    to={paths.cards([line.device])}
                    aria-label={words.catalogue.showCard(device?.name ?? line.device)}
                  >
                    {device?.name ?? line.device}
                  </Link>
                </strong>
                <br />
                <span className="soft">{device === undefined ? '' : asksFor(device).join('; ')}</span>
              </div>
            </li>
          )
        })}
      </ul>
      <Link className="button" to={paths.cards(known.state.countSheet.map((line) => line.device))}>
        {words.catalogue.allCards}
      </Link>
    </aside>
  )
}

function asksFor(device: DeviceKnown): string[] {
  return [
    ...(device.parts > 1 ? [words.wash.cardParts(device.parts)] : []),
    ...device.lumens.map((lumen) => words.wash.cardLumen(lumen.diameterMm, lumen.lengthMm)),
    ...(device.insulated ? [words.wash.cardInsulated] : []),
    ...(device.optic ? [words.wash.cardOptic] : []),
  ]
}
