import { plannedBreaksNothing } from './planning/rules/planned-breaks-nothing.ts'
import { plannedImplantDecided } from './planning/rules/planned-implant-decided.ts'
import { immersedAsClaimed } from './baths/rules/immersed-as-claimed.ts'
import { immersedByMakersList } from './baths/rules/immersed-by-makers-list.ts'
import { bathWithinShelfLife } from './baths/rules/bath-within-shelf-life.ts'
import { topUpResetsNothing } from './baths/rules/top-up-resets-nothing.ts'
import { stripBottleProven } from './baths/rules/strip-bottle-proven.ts'
import { stripReadInTime } from './baths/rules/strip-read-in-time.ts'
import { stripPassed } from './baths/rules/strip-passed.ts'
import { bathNotSpent } from './baths/rules/bath-not-spent.ts'
import { bathStrong } from './baths/rules/bath-strong.ts'
import { bathYoung } from './baths/rules/bath-young.ts'
import { bathWarm } from './baths/rules/bath-warm.ts'
import { immersedEverywhere } from './baths/rules/immersed-everywhere.ts'
import { immersedWithoutImplant } from './baths/rules/immersed-without-implant.ts'
import { bathNotForMycobacteria } from './baths/rules/bath-not-for-mycobacteria.ts'
import { immersedLongEnough } from './baths/rules/immersed-long-enough.ts'
import { rinseWaterFit } from './baths/rules/rinse-water-fit.ts'
import { rinsedEnough } from './baths/rules/rinsed-enough.ts'
import { immersionOfItsRounds } from './baths/rules/immersion-of-its-rounds.ts'
import { bathNotForBladderCancer } from './baths/rules/bath-not-for-bladder-cancer.ts'
import { treatedNotStored } from './baths/rules/treated-not-stored.ts'
import { treatedUsedAtOnce } from './baths/rules/treated-used-at-once.ts'
import { treatedStillProven } from './baths/rules/treated-still-proven.ts'
import { bathNeutralised } from './baths/rules/bath-neutralised.ts'
import { machineWithinCalibration } from './consumables/rules/machine-within-calibration.ts'
import { badLotIsRecalled } from './consumables/rules/bad-lot-is-recalled.ts'
import { indicatorLotControlledThatDay } from './consumables/rules/indicator-lot-controlled-that-day.ts'
import { detergentInMakerRange } from './consumables/rules/detergent-in-maker-range.ts'
import { lotTriedBeforeUse } from './consumables/rules/lot-tried-before-use.ts'
import { lotNamedOnce } from './consumables/rules/lot-named-once.ts'
import { lotFitForUse } from './consumables/rules/lot-fit-for-use.ts'
import { accountedFits } from './tracing/rules/accounted-fits.ts'
import { accountedInExtent } from './tracing/rules/accounted-in-extent.ts'
import { airRemovalOnDynamic } from './sterilising/rules/air-removal-on-dynamic.ts'
import { airRemovalPassed } from './sterilising/rules/air-removal-passed.ts'
import { biologicalControlGrew } from './sterilising/rules/biological-control-grew.ts'
import { biologicalGrew } from './sterilising/rules/biological-grew.ts'
import { biologicalIncubated } from './sterilising/rules/biological-incubated.ts'
import { biologicalTestDue } from './sterilising/rules/biological-test-due.ts'
import { antibioticInTime } from './operating/rules/antibiotic-in-time.ts'
import { mycobacteriaWashedApart } from './operating/rules/mycobacteria-washed-apart.ts'
import { openedNotAfterPhthalaldehyde } from './operating/rules/opened-not-after-phthalaldehyde.ts'
import { openedWithoutAllergen } from './operating/rules/opened-without-allergen.ts'
import { prionWayKept } from './operating/rules/prion-way-kept.ts'
import { releaseAfterPrionWay } from './operating/rules/release-after-prion-way.ts'
import { implantInDate } from './operating/rules/implant-in-date.ts'
import { implantOnlyDecided } from './operating/rules/implant-only-decided.ts'
import { woundRules } from './wounds/wound-rules.ts'
import { caseTimesInOrder } from './operating/rules/case-times-in-order.ts'
import { chemicalPassed } from './sterilising/rules/chemical-passed.ts'
import { closedAllAccounted } from './tracing/rules/closed-all-accounted.ts'
import { closedOnce } from './tracing/rules/closed-once.ts'
import { closedOutcomesFit } from './tracing/rules/closed-outcomes-fit.ts'
import { closedRepeatsRead } from './tracing/rules/closed-repeats-read.ts'
import { conditionLost } from './storing/rules/condition-lost.ts'
import { cycleMet } from './sterilising/rules/cycle-met.ts'
import { cycleOfItsLoad } from './sterilising/rules/cycle-of-its-load.ts'
import { cycleOfOneLoad } from './sterilising/rules/cycle-of-one-load.ts'
import { releaseOnOwnLog } from './sterilising/rules/release-on-own-log.ts'
import { decidedInOrder } from './sterilising/rules/decided-in-order.ts'
import { decidedOfItsLoad } from './sterilising/rules/decided-of-its-load.ts'
import { enteredBySomeoneHere } from './people/rules/entered-by-someone-here.ts'
import { enteredInTime } from './unit/rules/entered-in-time.ts'
import { managerRemains } from './people/rules/manager-remains.ts'
import { exceptionBySomeoneHere } from './people/rules/exception-by-someone-here.ts'
import { inspectedMagnified } from './cleaning/rules/inspected-magnified.ts'
import { inspectionSendsBack } from './cleaning/rules/inspection-sends-back.ts'
import { insulationTested } from './cleaning/rules/insulation-tested.ts'
import { leakTestDue } from './sterilising/rules/leak-test-due.ts'
import { leakTestPassed } from './sterilising/rules/leak-test-passed.ts'
import { limitChangeIsSound } from './unit/rules/limit-change-is-sound.ts'
import { loadAfterAirRemovalTest } from './sterilising/rules/load-after-air-removal-test.ts'
import { loadImplantWithBiological } from './sterilising/rules/load-implant-with-biological.ts'
import { loadOfFreshPacks } from './sterilising/rules/load-of-fresh-packs.ts'
import { loadOfSealedPacks } from './sterilising/rules/load-of-sealed-packs.ts'
import { goodsAfterProof } from './sterilising/rules/goods-after-proof.ts'
import { loadOnWorkingMachine } from './sterilising/rules/load-on-working-machine.ts'
import { loadWithBiological } from './sterilising/rules/load-with-biological.ts'
import { releaseWithBiological } from './sterilising/rules/release-with-biological.ts'
import { loadProgramKnown } from './sterilising/rules/load-program-known.ts'
import { lumensBrushed } from './cleaning/rules/lumens-brushed.ts'
import { machineReturnedProven } from './sterilising/rules/machine-returned-proven.ts'
import { notInTheFuture } from './unit/rules/not-in-the-future.ts'
import { openedInDate } from './operating/rules/opened-in-date.ts'
import { openedIndicatorsTurned } from './operating/rules/opened-indicators-turned.ts'
import { openedIntact } from './operating/rules/opened-intact.ts'
import { openedOnce } from './operating/rules/opened-once.ts'
import { openedReleased } from './operating/rules/opened-released.ts'
import { openedUnderNoRecall } from './operating/rules/opened-under-no-recall.ts'
import { packedAfterInspection } from './packing/rules/packed-after-inspection.ts'
import { packedAfterWash } from './packing/rules/packed-after-wash.ts'
import { packedForSteam } from './packing/rules/packed-for-steam.ts'
import { packedLightEnough } from './packing/rules/packed-light-enough.ts'
import { packedOnItsRound } from './packing/rules/packed-on-its-round.ts'
import { packedWithCount } from './packing/rules/packed-with-count.ts'
import { packedWithInsideIndicator } from './packing/rules/packed-with-inside-indicator.ts'
import { packedWithInsulationTested } from './packing/rules/packed-with-insulation-tested.ts'
import { packedWithOutsideIndicator } from './packing/rules/packed-with-outside-indicator.ts'
import { packedWithoutSingleUse } from './packing/rules/packed-without-single-use.ts'
import { recallStopsMachine } from './tracing/rules/recall-stops-machine.ts'
import { releaseAfterAirRemovalTest } from './sterilising/rules/release-after-air-removal-test.ts'
import { releaseBiologicalValid } from './sterilising/rules/release-biological-valid.ts'
import { releaseChallengeDevice } from './sterilising/rules/release-challenge-device.ts'
import { releaseCycleMet } from './sterilising/rules/release-cycle-met.ts'
import { releaseEarlyImplant } from './sterilising/rules/release-early-implant.ts'
import { releaseFreshPacks } from './sterilising/rules/release-fresh-packs.ts'
import { releaseFromWorkingMachine } from './sterilising/rules/release-from-working-machine.ts'
import { releaseGoods } from './sterilising/rules/release-goods.ts'
import { releaseImplantWaits } from './sterilising/rules/release-implant-waits.ts'
import { releaseInDate } from './sterilising/rules/release-in-date.ts'
import { releaseInsideIndicators } from './sterilising/rules/release-inside-indicators.ts'
import { releaseIntactPacks } from './sterilising/rules/release-intact-packs.ts'
import { releaseNoGrowth } from './sterilising/rules/release-no-growth.ts'
import { releaseOutsideIndicators } from './sterilising/rules/release-outside-indicators.ts'
import { releaseUnderNoRecall } from './sterilising/rules/release-under-no-recall.ts'
import { releasedStillProven } from './storing/rules/released-still-proven.ts'
import { repairNeedsProof } from './sterilising/rules/repair-needs-proof.ts'
import { soakInTime } from './cleaning/rules/soak-in-time.ts'
import { transportInOrder } from './cleaning/rules/transport-in-order.ts'
import { transportMoist } from './cleaning/rules/transport-moist.ts'
import { soakWaterCool } from './cleaning/rules/soak-water-cool.ts'
import { stepsInOrder } from './unit/rules/steps-in-order.ts'
import { storeClimate } from './storing/rules/store-climate.ts'
import { storedCool } from './storing/rules/stored-cool.ts'
import { storedReleased } from './storing/rules/stored-released.ts'
import { storedUnderNoRecall } from './storing/rules/stored-under-no-recall.ts'
import { useNamesRoundBefore } from './cleaning/rules/use-names-round-before.ts'
import { usedPackWasOpened } from './cleaning/rules/used-pack-was-opened.ts'
import { washedAfterSoak } from './cleaning/rules/washed-after-soak.ts'
import { washedTakenApart } from './cleaning/rules/washed-taken-apart.ts'
import { washerHotEnough } from './cleaning/rules/washer-hot-enough.ts'
import { washerKnown } from './cleaning/rules/washer-known.ts'
import { lifeLimitKept } from './catalogue/rules/life-limit-kept.ts'
import { itemFitForUse } from './catalogue/rules/item-fit-for-use.ts'
import { loanArrivesInTime } from './catalogue/rules/loan-arrives-in-time.ts'
import { loanIsReprocessed } from './catalogue/rules/loan-is-reprocessed.ts'
import { loanWithInstructions } from './catalogue/rules/loan-with-instructions.ts'
import { loanReturnedClean } from './catalogue/rules/loan-returned-clean.ts'
import { gasRules } from './gases/gas-rules.ts'
import { waterWithinLimits } from './cleaning/rules/water-within-limits.ts'
import { rinsedWithGoodWater } from './cleaning/rules/rinsed-with-good-water.ts'
import { cleanByTest } from './cleaning/rules/clean-by-test.ts'
import { testFitsItsWash } from './cleaning/rules/test-fits-its-wash.ts'
import { foilTestPassed } from './cleaning/rules/foil-test-passed.ts'
import { foilTestDue } from './cleaning/rules/foil-test-due.ts'
import { inspectionOutcomeFits } from './cleaning/rules/inspection-outcome-fits.ts'
import { packedCleanByTest } from './cleaning/rules/packed-clean-by-test.ts'
import { loadByMakersList } from './catalogue/rules/load-by-makers-list.ts'
import { releaseByMakersList } from './catalogue/rules/release-by-makers-list.ts'
import type { AnyRule } from './rule.ts'

/**
 * The policy, readable as a list: every rule in the order of the loop, so that findings read in that order. What makes
 * a whole load doubtful comes before what is wrong with one pack.
 */
export const rules: readonly AnyRule[] = Object.freeze([
  // unit
  enteredInTime,
  notInTheFuture,
  // people
  enteredBySomeoneHere,
  exceptionBySomeoneHere,
  managerRemains,
  // unit
  stepsInOrder,
  limitChangeIsSound,
  // catalogue
  loanArrivesInTime,
  loanIsReprocessed,
  loanWithInstructions,
  loanReturnedClean,
  // cleaning
  useNamesRoundBefore,
  usedPackWasOpened,
  soakInTime,
  transportInOrder,
  transportMoist,
  soakWaterCool,
  washedAfterSoak,
  washedTakenApart,
  lumensBrushed,
  washerKnown,
  washerHotEnough,
  inspectionSendsBack,
  inspectedMagnified,
  insulationTested,
  waterWithinLimits,
  rinsedWithGoodWater,
  cleanByTest,
  testFitsItsWash,
  foilTestPassed,
  foilTestDue,
  inspectionOutcomeFits,
  // packing
  packedOnItsRound,
  packedAfterWash,
  packedAfterInspection,
  packedWithInsulationTested,
  packedCleanByTest,
  packedWithCount,
  packedWithoutSingleUse,
  packedForSteam,
  itemFitForUse,
  lifeLimitKept,
  packedLightEnough,
  packedWithInsideIndicator,
  packedWithOutsideIndicator,
  // sterilising
  loadOnWorkingMachine,
  goodsAfterProof,
  loadProgramKnown,
  loadAfterAirRemovalTest,
  loadOfSealedPacks,
  loadOfFreshPacks,
  loadByMakersList,
  loadImplantWithBiological,
  loadWithBiological,
  biologicalTestDue,
  leakTestDue,
  leakTestPassed,
  airRemovalOnDynamic,
  airRemovalPassed,
  repairNeedsProof,
  machineReturnedProven,
  cycleOfItsLoad,
  cycleOfOneLoad,
  cycleMet,
  chemicalPassed,
  biologicalGrew,
  biologicalControlGrew,
  biologicalIncubated,
  decidedOfItsLoad,
  decidedInOrder,
  releaseGoods,
  releaseByMakersList,
  releaseFreshPacks,
  releaseFromWorkingMachine,
  releaseAfterAirRemovalTest,
  releaseCycleMet,
  releaseOnOwnLog,
  releaseOutsideIndicators,
  releaseInsideIndicators,
  releaseChallengeDevice,
  releaseNoGrowth,
  releaseBiologicalValid,
  releaseWithBiological,
  releaseImplantWaits,
  releaseEarlyImplant,
  releaseUnderNoRecall,
  releaseIntactPacks,
  releaseInDate,
  // low-temperature methods
  ...gasRules,
  // baths
  immersedAsClaimed,
  immersedByMakersList,
  bathWithinShelfLife,
  topUpResetsNothing,
  stripBottleProven,
  stripReadInTime,
  stripPassed,
  bathNotSpent,
  bathStrong,
  bathYoung,
  bathWarm,
  immersedEverywhere,
  immersedWithoutImplant,
  bathNotForMycobacteria,
  immersedLongEnough,
  rinseWaterFit,
  rinsedEnough,
  immersionOfItsRounds,
  bathNotForBladderCancer,
  treatedNotStored,
  treatedUsedAtOnce,
  treatedStillProven,
  bathNeutralised,
  // consumables
  lotNamedOnce,
  lotFitForUse,
  lotTriedBeforeUse,
  detergentInMakerRange,
  indicatorLotControlledThatDay,
  badLotIsRecalled,
  machineWithinCalibration,
  // storing
  storedReleased,
  releasedStillProven,
  storedUnderNoRecall,
  storedCool,
  conditionLost,
  storeClimate,
  // operating
  openedReleased,
  openedUnderNoRecall,
  openedIntact,
  openedIndicatorsTurned,
  openedInDate,
  openedOnce,
  openedNotAfterPhthalaldehyde,
  openedWithoutAllergen,
  prionWayKept,
  mycobacteriaWashedApart,
  releaseAfterPrionWay,
  caseTimesInOrder,
  antibioticInTime,
  implantOnlyDecided,
  implantInDate,
  plannedImplantDecided,
  plannedBreaksNothing,
  // wounds
  ...woundRules,
  // tracing
  recallStopsMachine,
  accountedInExtent,
  accountedFits,
  closedOnce,
  closedRepeatsRead,
  closedAllAccounted,
  closedOutcomesFit,
])
