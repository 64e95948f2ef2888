import { type LumenClaim, publicClaims } from '#road/catalogue/route/claims.ts'
import { Tick } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'
import { OwnClaim } from './OwnClaim.tsx'

interface Props {
  readonly claims: readonly LumenClaim[]
  readonly onChange: (claims: readonly LumenClaim[]) => void
}

/** The public claims to choose from, and those of its own papers; none is in force until it is ticked or added. */
export function ClaimsOfMachine({ claims, onChange }: Props) {
  const w = words.unit.register
  return (
    <fieldset className="field">
      <legend>{w.claims}</legend>
      <p className="soft small">{w.claimsSay}</p>
      {[...publicClaims, ...claims.filter((claim) => !isPublic(claim.id))].map((claim) => (
        <Tick
          key={claim.id}
          checked={claims.some((each) => each.id === claim.id)}
          onChange={(on) => onChange(on ? [...claims, claim] : claims.filter((each) => each.id !== claim.id))}
        >
          {textOf(claim)}
        </Tick>
      ))}
      <OwnClaim taken={claims.map(({ id }) => id)} onAdd={(claim) => onChange([...claims, claim])} />
    </fieldset>
  )
}

function isPublic(id: string): boolean {
  return publicClaims.some((claim) => claim.id === id)
}

function textOf(claim: LumenClaim): string {
  const w = words.unit.register
  return [
    w.claim(claim.id, claim.minDiameterMm, claim.maxLengthMm),
    claim.materials.map((each) => words.catalogue.materials[each]).join(' or '),
    w.claimMore(claim.maxChannels, claim.flexible),
    ...(claim.maxLumensInLoad === undefined ? [] : [w.claimMost(claim.maxLumensInLoad)]),
    ...(claim.maxLoadKg === undefined ? [] : [w.claimMass(claim.maxLoadKg)]),
    ...(claim.alone === true ? [w.claimAlone] : []),
  ].join(', ')
}
