import { catalogueWords } from './en/catalogue.ts'
import { bathWords } from './en/baths.ts'
import { commonWords } from './en/common.ts'
import { connectWords } from './en/connect.ts'
import { gasWords } from './en/gas.ts'
import { groupWords } from './en/group.ts'
import { hoursWords } from './en/hours.ts'
import { itemWords, loanWords } from './en/items.ts'
import { keepingWords } from './en/keeping.ts'
import { listWords } from './en/list.ts'
import { listImportWords } from './en/list-import.ts'
import { lotWords } from './en/lots.ts'
import { machineWords } from './en/machines.ts'
import { roundWords } from './en/round.ts'
import { safetyWords } from './en/safety.ts'
import { identityWords } from './en/identity.ts'
import { signInWords } from './en/sign-in.ts'
import { scanWords } from './en/scan.ts'
import { standingWords } from './en/standings.ts'
import { patientWords } from './en/patient.ts'
import { theatreWords } from './en/theatre.ts'
import { tableWords } from './en/tables.ts'
import { traceWords } from './en/trace.ts'
import { unitWords } from './en/unit.ts'
import { waterWords } from './en/water.ts'
import { webhookWords } from './en/webhooks.ts'
import { woundWords } from './en/wounds.ts'
import { washWords } from './en/wash.ts'

export const en = {
  ...commonWords,
  catalogue: catalogueWords,
  identity: identityWords,
  signIn: signInWords,
  scan: scanWords,
  standings: standingWords,
  round: roundWords,
  wash: washWords,
  water: waterWords,
  items: itemWords,
  loans: loanWords,
  list: listWords,
  listImport: listImportWords,
  lots: lotWords,
  machines: machineWords,
  connect: connectWords,
  gas: gasWords,
  group: groupWords,
  baths: bathWords,
  patient: patientWords,
  safety: safetyWords,
  theatre: theatreWords,
  wounds: woundWords,
  tables: tableWords,
  webhooks: webhookWords,
  trace: traceWords,
  unit: unitWords,
  hours: hoursWords,
  keeping: keepingWords,
}
