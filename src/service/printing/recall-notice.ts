import { citeSource } from '#units/source.ts'
import { roundStandingWords } from '#road/standing-words.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import type { RecallAnswer } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import { readRecall } from '../read-recall.ts'
import { facts, heading, namesOf, pageOf, type PrintAsked, rows, weightWord } from './print-parts.ts'
import type { PrintedPage } from './printed-page.ts'

const duties: Record<RecallAnswer['packs'][number]['duty'], string> = {
  recall: 'Take back',
  hold: 'Hold, do not use',
  cleared: 'Cleared',
}

/** The notice of a recall, for whoever has to find its packs: what failed, how far it reaches, each pack with a place to tick it off. */
export async function recallNotice(
  { reader }: Pick<RecordContext, 'reader'>,
  id: SubjectId<'recall'>,
  asked: PrintAsked,
): Promise<PrintedPage | undefined> {
  const answer = await readRecall(reader, id, asked.now)
  if (answer === undefined) return undefined
  const { times, frame } = await pageOf(reader, asked)
  const { recall, packs, loads, findings } = answer
  const names = await namesOf(reader, [
    answer.machine,
    recall.opened?.by,
    ...packs.flatMap((pack) => [pack.round, pack.case]),
  ])
  const name = (subject: SubjectId): string => names.get(subject) ?? subjectKey(subject)
  const { opened } = recall
  return {
    title: `Recall ${subjectKey(id)}: ${answer.standing}`,
    about: `Recall ${subjectKey(id)}`,
    ...frame,
    content: [
      { text: answer.because, bold: true, fontSize: 12, margin: [0, 0, 0, 6] },
      facts([
        ['What failed', answer.failed],
        ...(answer.machine === null ? [] : [['Machine', name(answer.machine)] as const]),
        ['Last good', answer.lastGood ?? 'none on record'],
        ...(opened === null ? [] : [['Opened', `${times(opened.at)} by ${name(opened.by)}: ${opened.why}`] as const]),
        [
          'Not accounted for',
          `${packs.filter(({ duty, outcome }) => duty !== 'cleared' && outcome === null).length} of ${packs.filter(({ duty }) => duty !== 'cleared').length} packs`,
        ],
      ]),
      heading('Packs'),
      packs.length === 0
        ? { text: 'It reaches no pack.' }
        : rows(
            ['Pack', 'Load', 'Do', 'Stands', 'Place or case', 'Account'],
            packs.map(({ round, load, duty, place, shelf, case: opened, outcome }) => [
              name(round),
              subjectKey(load),
              { text: duties[duty], bold: duty !== 'cleared' },
              roundStandingWords[place],
              shelf ?? (opened === null ? '' : name(opened)),
              outcome ?? '_____________',
            ]),
            ['*', 46, 72, 72, 72, 74],
          ),
      heading('Loads'),
      rows(
        ['Load', 'Run', 'Do', 'Why'],
        loads.map(({ load, at, duty, why, source }) => [
          subjectKey(load),
          times(at),
          duties[duty],
          `${why} (${citeSource(source)})`,
        ]),
        [70, 96, 84, '*'],
      ),
      ...(findings.length === 0
        ? []
        : [
            heading('Against closing it'),
            { ul: findings.map(({ weight, says }) => `${weightWord(weight)}: ${says}`) },
          ]),
      {
        text: 'The extent is as the record stood when this was printed. Look at the screen before you act on an older sheet.',
        style: 'soft',
        margin: [0, 8, 0, 0],
      },
    ],
  }
}
