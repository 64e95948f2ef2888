import { commonWords } from './en/common.ts'
import { machineWords } from './en/machines.ts'
import { roundWords } from './en/round.ts'
import { standingWords } from './en/standings.ts'
import { theatreWords } from './en/theatre.ts'
import { traceWords } from './en/trace.ts'
import { unitWords } from './en/unit.ts'
import { washWords } from './en/wash.ts'

export const en = {
  ...commonWords,
  standings: standingWords,
  round: roundWords,
  wash: washWords,
  machines: machineWords,
  theatre: theatreWords,
  trace: traceWords,
  unit: unitWords,
}
