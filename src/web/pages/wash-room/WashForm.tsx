import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { KnownRow } from '#service/api-types.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, Tick } from '../../components/Fields.tsx'
import { useNames } from '../../components/Named.tsx'
import { datedKey } from '../../make-key.ts'
import { words } from '../../words/words.ts'
import { DetergentFields } from './DetergentFields.tsx'
import { ManualPart } from './ManualPart.tsx'
import { WasherPart } from './WasherPart.tsx'

type How = Bodies['wash-recorded']['how']

interface Props {
  readonly first: SubjectId<'round'>
  readonly rounds: readonly KnownRow<'round'>[]
  readonly onDone: () => void
}

const washable = new Set(['used', 'soaking', 'sentBack'])

/** One wash of one or several sets. */
export function WashForm({ first, rounds, onDone }: Props) {
  const [wash] = useState(() => datedKey('wash', 'wash', new Date()))
  const [chosen, setChosen] = useState<readonly SubjectId<'round'>[]>([first])
  const [kind, setKind] = useState<How['kind']>('washer')
  const [how, setHow] = useState<How | null>(null)
  const [outlets, setOutlets] = useState<readonly SubjectId<'outlet'>[]>([])
  const [detergent, setDetergent] = useState<Bodies['wash-recorded']['detergent']>()
  const { data: water = [] } = useQuery(knownQuery('outlet'))
  const setName = useNames('set')
  const choose = (round: SubjectId<'round'>, on: boolean) =>
    setChosen((before) => (on ? [...before, round] : before.filter((each) => each !== round)))
  return (
    <EntryForm
      kind="wash-recorded"
      body={
        how === null || chosen.length === 0
          ? null
          : {
              wash,
              rounds: [...chosen],
              ...(outlets.length === 0 ? {} : { outlets: [...outlets] }),
              ...(detergent === undefined ? {} : { detergent }),
              how,
            }
      }
      action={words.wash.record}
      judged
      lacking={chosen.length === 0 ? words.wash.chooseSet : undefined}
      onKept={onDone}
    >
      <fieldset className="field">
        <legend>{words.wash.sets}</legend>
        <div className="choices">
          {rounds
            .filter((row) => washable.has(row.standing))
            .map((row) => (
              <Tick key={row.subject} checked={chosen.includes(row.subject)} onChange={(on) => choose(row.subject, on)}>
                {setName(row.state.set)}
              </Tick>
            ))}
        </div>
      </fieldset>
      <ChoiceField
        label={words.wash.how}
        value={kind}
        options={[
          { value: 'washer', label: words.wash.washer },
          { value: 'manual', label: words.wash.manual },
        ]}
        onChange={(next) => {
          setKind(next)
          setHow(null)
        }}
      />
      {water.length > 0 && (
        <fieldset className="field">
          <legend>{words.water.from}</legend>
          <div className="choices">
            {water.map((row) => (
              <Tick
                key={row.subject}
                checked={outlets.includes(row.subject)}
                onChange={(on) =>
                  setOutlets((before) =>
                    on ? [...before, row.subject] : before.filter((each) => each !== row.subject),
                  )
                }
              >
                {row.state.name}
              </Tick>
            ))}
          </div>
        </fieldset>
      )}
      <DetergentFields onChange={setDetergent} />
      {kind === 'manual' ? <ManualPart onChange={setHow} /> : <WasherPart onChange={setHow} />}
    </EntryForm>
  )
}
