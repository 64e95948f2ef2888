import { citeSource } from '#units/source.ts'
import { cardStepTitles } from '#road/catalogue/card-step-titles.ts'
import type { SubjectId } from '#road/subject.ts'
import type { RecordContext } from '../context.ts'
import { readStepCard } from '../read-step-card.ts'
import { pageOf, type PrintAsked, rows } from './print-parts.ts'
import type { PrintedPage } from './printed-page.ts'

/** The step card of a device, to be hung over the sink. */
export async function stepCardPage(
  { reader }: Pick<RecordContext, 'reader'>,
  id: SubjectId<'device'>,
  { use, ...asked }: PrintAsked & { readonly use?: string | undefined },
): Promise<PrintedPage | undefined> {
  const device = (await reader.known([id])).get(id)
  if (device === undefined) return undefined
  // A use that is not on file is no use of this device.
  if (use !== undefined && !(device.uses ?? []).some((each) => each.use === use)) return undefined
  const { frame } = await pageOf(reader, asked)
  const card = await readStepCard(reader, device, use)
  const confirmed =
    card.unverified === 0
      ? 'Every line rests on a source that was confirmed.'
      : `${card.unverified} lines rest on a source that nobody has confirmed: check them against your local standard.`
  return {
    title: `Step card: ${card.name}${use === undefined ? '' : `, for ${use}`}`,
    about: card.name,
    ...frame,
    content: [
      { text: 'The instructions of the maker decide over each line.', bold: true },
      rows(
        ['Step', 'What to do', 'Source'],
        card.lines.map(({ step, says, source }, place) => [
          { text: card.lines[place - 1]?.step === step ? '' : cardStepTitles[step], bold: true },
          { text: says, fontSize: 11 },
          { text: citeSource(source), fontSize: 8 },
        ]),
        [70, '*', 150],
      ),
      { text: confirmed, style: 'soft' },
    ],
  }
}
