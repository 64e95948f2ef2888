import { allergens, type PatientFacts } from '#road/operating/patient-facts.ts'
import { optionsOf } from '../words/options.ts'
import { words } from '../words/words.ts'
import { ChoiceField, Tick } from './Fields.tsx'

/** The answers as they are given: none is filled in for anybody. */
export type PatientAnswers = Omit<PatientFacts, 'prion' | 'tissue' | 'mycobacteria' | 'bladderCancer'> & {
  readonly [Key in 'prion' | 'tissue' | 'mycobacteria' | 'bladderCancer']: PatientFacts[Key] | null
}

export const noAnswers: PatientAnswers = {
  prion: null,
  tissue: null,
  mycobacteria: null,
  bladderCancer: null,
  allergiesAsked: false,
  allergies: [],
}

/** The facts once each question has its answer, 'not known' being one. */
export function answered(answers: PatientAnswers): PatientFacts | null {
  const { prion, tissue, mycobacteria, bladderCancer, allergiesAsked, allergies } = answers
  if (prion === null || tissue === null || mycobacteria === null || bladderCancer === null) return null
  return { prion, tissue, mycobacteria, bladderCancer, allergiesAsked, allergies }
}

interface Props {
  readonly value: PatientAnswers
  readonly onChange: (value: PatientAnswers) => void
}

export function PatientFields({ value, onChange }: Props) {
  const change = (part: Partial<PatientAnswers>) => onChange({ ...value, ...part })
  const w = words.patient
  return (
    <>
      <ChoiceField
        label={w.prionIs}
        value={value.prion}
        options={optionsOf(w.prion)}
        onChange={(prion) => change({ prion })}
      />
      <ChoiceField
        label={w.tissueIs}
        value={value.tissue}
        options={optionsOf(w.tissue)}
        onChange={(tissue) => change({ tissue })}
      />
      <ChoiceField
        label={w.mycobacteriaIs}
        value={value.mycobacteria}
        options={optionsOf(w.mycobacteria)}
        onChange={(mycobacteria) => change({ mycobacteria })}
      />
      <ChoiceField
        label={w.cancerIs}
        value={value.bladderCancer}
        options={optionsOf(w.yesNo)}
        onChange={(bladderCancer) => change({ bladderCancer })}
      />
      <Tick checked={value.allergiesAsked} onChange={(allergiesAsked) => change({ allergiesAsked, allergies: [] })}>
        {w.asked}
      </Tick>
      {value.allergiesAsked && (
        <fieldset className="field">
          <legend>{w.allergicTo}</legend>
          <div className="choices">
            {allergens.map((each) => (
              <Tick
                key={each}
                checked={value.allergies.includes(each)}
                onChange={(on) =>
                  change({
                    allergies: on ? [...value.allergies, each] : value.allergies.filter((other) => other !== each),
                  })
                }
              >
                {w.allergens[each]}
              </Tick>
            ))}
          </div>
        </fieldset>
      )}
    </>
  )
}
