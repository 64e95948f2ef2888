import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useNavigate } from 'react-router'
import { Procedure } from '#road/operating/procedures.ts'
import type { ChartKnown } from '#road/wounds/surveillance/fold.ts'
import { designQuery, ratesQuery } from '../../api/wound-queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField, Tick } from '../../components/Fields.tsx'
import { datedKey } from '../../make-key.ts'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'

/** What the unit wants of a chart, in its own words; what follows from it is worked out as it is typed. */
export function ChartSetForm({ of }: { readonly of?: ChartKnown }) {
  const navigate = useNavigate()
  const w = words.wounds.chart
  const set = of?.set
  const [chart] = useState(() => of?.id ?? datedKey('chart', 'chart', new Date()))
  const [name, setName] = useState(set?.name ?? '')
  const [procedures, setProcedures] = useState<readonly Procedure[]>(set?.procedures ?? [])
  const [usual, setUsual] = useState(set === undefined || set === null ? '' : percentText(set.usualRate))
  const [raised, setRaised] = useState(set === undefined || set === null ? '' : percentText(set.raisedRate))
  const [years, setYears] = useState(String(set?.falseAlarmYears ?? 3))
  const [volume, setVolume] = useState(set === undefined || set === null ? '' : String(set.operationsPerYear))
  const [headStart, setHeadStart] = useState(set?.headStart ?? true)
  const [riskAdjusted, setRiskAdjusted] = useState(set?.riskAdjusted ?? false)
  const [why, setWhy] = useState('')
  const lastYear = useQuery(ratesQuery('procedure', 365)).data
  const operations = volume === '' ? lastYear?.all.operations : Number(volume)
  const wishes = {
    p0: Number(usual) / 100,
    p1: Number(raised) / 100,
    proceduresPerYear: operations ?? 0,
    yearsBetweenFalseAlarms: Number(years),
  }
  const sound =
    wishes.p0 > 0 && wishes.p1 > wishes.p0 && wishes.p1 < 1 && wishes.proceduresPerYear >= 1 && Number(years) > 0
  const complete = sound && name.length > 1 && why.length > 4
  const toggle = (each: Procedure, on: boolean) =>
    setProcedures(on ? [...procedures, each] : procedures.filter((other) => other !== each))
  return (
    <EntryForm
      kind="chart-set"
      judged
      body={
        complete
          ? {
              chart,
              name,
              procedures: [...procedures],
              usualRate: wishes.p0,
              raisedRate: wishes.p1,
              falseAlarmYears: Number(years),
              operationsPerYear: wishes.proceduresPerYear,
              headStart,
              riskAdjusted,
              why,
            }
          : null
      }
      action={w.setDo}
      onKept={() => void navigate(paths.woundChart(chart))}
    >
      <TextField label={w.name} value={name} minLength={2} onChange={setName} />
      <fieldset className="field">
        <legend>{w.procedures}</legend>
        {Procedure.options.map((each) => (
          <Tick key={each} checked={procedures.includes(each)} onChange={(on) => toggle(each, on)}>
            {words.wounds.procedures[each]}
          </Tick>
        ))}
      </fieldset>
      <div className="pair">
        <TextField label={w.usual} type="number" step="any" min={0} value={usual} onChange={setUsual} />
        <TextField label={w.raised} type="number" step="any" min={0} value={raised} onChange={setRaised} />
      </div>
      <div className="pair">
        <TextField label={w.years} type="number" step="any" min={0} value={years} onChange={setYears} />
        <TextField
          label={w.volume}
          type="number"
          min={1}
          optional
          value={volume}
          hint={lastYear === undefined ? undefined : String(lastYear.all.operations)}
          onChange={setVolume}
        />
      </div>
      {sound && <DesignSays wishes={wishes} headStart={headStart} />}
      <Tick checked={headStart} onChange={setHeadStart}>
        {w.headStart}
      </Tick>
      <Tick checked={riskAdjusted} onChange={setRiskAdjusted}>
        {w.riskAdjusted}
      </Tick>
      <TextField label={w.why} value={why} minLength={5} onChange={setWhy} />
    </EntryForm>
  )
}

interface DesignProps {
  readonly wishes: Parameters<typeof designQuery>[0]
  readonly headStart: boolean
}

function DesignSays({ wishes, headStart }: DesignProps) {
  const { data } = useQuery(designQuery(wishes))
  const w = words.wounds.chart
  if (data === undefined) return null
  const operations = headStart ? data.proceduresToSignalHeadStart : data.proceduresToSignal
  const withinYear = headStart ? data.falseAlarmWithinYearHeadStart : data.falseAlarmWithinYear
  return (
    <p aria-live="polite">
      {w.says(
        w.yearsOf(data.ARL0 / wishes.proceduresPerYear),
        String(wishes.proceduresPerYear),
        Math.round(data.ARL0).toString(),
        Math.round(operations).toString(),
        (operations * wishes.p1).toFixed(1),
      )}{' '}
      {w.withinYear(words.wounds.rates.percent(withinYear))}
    </p>
  )
}

/** A share as it is typed in percent: 0.036 is 3.6, not 3.5999999999999996. */
function percentText(share: number): string {
  return String(Number((share * 100).toPrecision(12)))
}
