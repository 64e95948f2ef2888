import type { ApiProblem } from '../api-types.ts'
import type { PrinterAddress } from './send-to-printer.ts'

export const noPrinter: ApiProblem = {
  type: '/problems/no-label-printer',
  title: 'No label printer is set',
  status: 501,
  detail: 'NILGROWTH_LABEL_PRINTER is not set',
  remedy: 'Save the label and print it, or start the service with NILGROWTH_LABEL_PRINTER and its address.',
}

export function printerFailed({ host, port }: PrinterAddress, says: string): ApiProblem {
  return {
    type: '/problems/label-printer-failed',
    title: 'The label printer did not take it',
    status: 503,
    detail: `${host}:${port}: ${says}`,
    remedy: 'Switch the printer on, or check its address; meanwhile save the label and print it.',
  }
}
