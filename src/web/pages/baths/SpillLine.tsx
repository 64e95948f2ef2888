import type { BathKnown } from '#road/baths/bath-fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly spill: BathKnown['spills'][number]
  /** Named where spills of several baths stand together. */
  readonly bath?: SubjectId<'bath'>
}

/** One spill: how much, where, what was done, and who was exposed. */
export function SpillLine({ spill, bath }: Props) {
  const w = words.safety.spills
  const times = useTimes()
  return (
    <li>
      <div className="grow">
        <Why of={{ title: w.one, value: w.litres(spill.litres), entry: spill.entry }}>{w.litres(spill.litres)}</Why>,{' '}
        {spill.place}, {times.moment(spill.at)}
        {bath !== undefined && (
          <>
            , <SubjectLink id={bath} />
          </>
        )}
        <br />
        {w.done}: {spill.done.replace(/\.$/, '')}.{' '}
        {spill.neutraliser === '' ? w.notNeutralised : w.neutralised(spill.neutraliser)}{' '}
        {spill.protection === '' ? w.noProtection : w.protection(spill.protection)}
        <br />
        {spill.exposed.length === 0 ? (
          <span className="soft">{w.nobody}</span>
        ) : (
          <>
            {w.exposed}:{' '}
            {spill.exposed.map((person, index) => (
              <span key={person}>
                {index > 0 && ', '}
                <SubjectLink id={person} />
              </span>
            ))}
            . {spill.care ?? w.noCare}
          </>
        )}
      </div>
    </li>
  )
}
