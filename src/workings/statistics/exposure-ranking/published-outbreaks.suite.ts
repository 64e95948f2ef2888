import { type SeededGenerator, seededGenerator } from '../special/seeded-generator.ts'

/*
 * Line lists that agree with what was printed of two outbreaks. Nobody printed the lists themselves: what follows the printed
 * figures and what was free is said at each.
 */

interface MadeExposure {
  readonly type: string
  readonly id: string
  readonly flags?: readonly string[]
}

interface MadeCase {
  readonly id: string
  readonly date: string
  readonly procedure: string
  readonly infected: boolean
  readonly onset?: string
  readonly organism?: string
  readonly exposures: MadeExposure[]
}

/**
 * Laparoscopy, 60 of 222 infected (Infect Control Hosp Epidemiol 2015;36:81, abstract): not first on the day's list OR 2.7 (1.4-5.2),
 * over an hour 2.4 (1.2-4.5), permanent trocar 2.2 (1.1-4.2).
 *
 * Printed: totals, odds ratios, limits. The cells are one of the two, two and four tables that give these with Woolf's limits, those
 * in which most cases were not first. Free: how the three go together (here independent given infection), days, and
 * everything else that cases met (noise, drawn without regard to infection). One stratum: none was printed.
 */
export function notFirstOnTheList(seed: number): MadeCase[] {
  const random = seededGenerator(seed)
  const cases = Array.from({ length: 222 }, (_, index): MadeCase => ({
    id: `C${index + 1}`,
    date: '2010-06-01',
    procedure: 'laparoscopy',
    infected: index < 60,
    ...(index < 60 ? { organism: 'Mycobacterium abscessus' } : {}),
    exposures: noise(random),
  }))
  const marginals = [
    ['list', 'not first', 43, 78],
    ['duration', 'over 1 h', 44, 87],
    ['instrument', 'permanent trocar', 44, 90],
  ] as const
  for (const [type, id, infected, others] of marginals) {
    for (const place of chosen(random, 0, 60, infected)) cases[place]?.exposures.push({ type, id })
    for (const place of chosen(random, 60, 222, others)) cases[place]?.exposures.push({ type, id })
  }
  return cases
}

/**
 * M. chelonae at port sites, 35 patients in six weeks, from the rinse water of chemically disinfected instruments (J Hosp Infect 2006,
 * doi 10.1016/j.jhin.2006.07.021).
 *
 * Printed: 35 patients, six weeks, the organism, the source. Free: the number of operations (150 here), that steam was used for 70 of
 * them, that 5 of the others were rinsed with sterile water, that two baths were in use, and the incubation of three to five weeks.
 */
export function rinseWater(seed: number): MadeCase[] {
  const random = seededGenerator(seed)
  const bathed = new Set(chosen(random, 0, 150, 80))
  const order = Array.from(bathed)
  const sterileRinse = new Set(order.slice(35, 40))
  return Array.from({ length: 150 }, (_, index): MadeCase => {
    const infected = order.indexOf(index) >= 0 && order.indexOf(index) < 35
    const day = random.below(42)
    const exposures = noise(random)
    if (bathed.has(index)) {
      exposures.push({ type: 'bath', id: `B${random.below(2) + 1}` })
      exposures.push({ type: 'rinse', id: sterileRinse.has(index) ? 'sterile water' : 'tap of room 2' })
    } else exposures.push({ type: 'load', id: `steam ${Math.floor(day / 2)}` })
    return {
      id: `C${index + 1}`,
      date: dayAfter('2004-03-01', day),
      procedure: 'laparoscopy',
      infected,
      ...(infected
        ? { organism: 'Mycobacterium chelonae', onset: dayAfter('2004-03-01', day + 21 + random.below(15)) }
        : {}),
      exposures,
    }
  })
}

function noise(random: SeededGenerator): MadeExposure[] {
  return [
    { type: 'theatre', id: `T${random.below(3) + 1}` },
    { type: 'person', id: `P${random.below(6) + 1}` },
    { type: 'set', id: `S${random.below(5) + 1}` },
  ]
}

/** `count` places from `from` to below `to`, in random order. */
function chosen(random: SeededGenerator, from: number, to: number, count: number): number[] {
  const places = Array.from({ length: to - from }, (_, index) => from + index)
  for (let index = 0; index < count; index += 1) {
    const other = index + random.below(places.length - index)
    const kept = places[index] ?? from
    places[index] = places[other] ?? from
    places[other] = kept
  }
  return places.slice(0, count)
}

function dayAfter(date: string, days: number): string {
  return new Date(Date.parse(date) + days * 86_400_000).toISOString().slice(0, 10)
}
