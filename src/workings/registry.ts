import { a0HoldTimeWorking } from './physics/a0-hold-time.ts'
import { a0Working } from './physics/a0.ts'
import { airRemovalWorking } from './physics/air-removal.ts'
import { bathLifeWorking } from './physics/bath-life.ts'
import { dValueWorking } from './physics/d-value.ts'
import { eoAerationWorking } from './physics/eo-aeration.ts'
import { eoLethalityWorking } from './physics/eo-lethality.ts'
import { exposureForSurvivorsWorking } from './physics/exposure-for-survivors.ts'
import { fValueWorking } from './physics/f-value.ts'
import { flushTimeWorking } from './physics/flush-time.ts'
import { fractionNegativeDWorking } from './physics/fraction-negative-d.ts'
import { gaugePressureWorking } from './physics/gauge-pressure.ts'
import { hardnessWorking } from './physics/hardness.ts'
import { leakRateWorking } from './physics/leak-rate.ts'
import { lethalRateWorking } from './physics/lethal-rate.ts'
import { logReductionWorking } from './physics/log-reduction.ts'
import { lumenVolumeWorking } from './physics/lumen-volume.ts'
import { roomClearanceWorking } from './physics/room-clearance.ts'
import { saturationPressureWorking } from './physics/saturation-pressure.ts'
import { saturationTemperatureWorking } from './physics/saturation-temperature.ts'
import { standardAtmosphereWorking } from './physics/standard-atmosphere.ts'
import { superheatWorking } from './physics/superheat.ts'
import { survivalKillWorking } from './physics/survival-kill.ts'
import { timeWeightedExposureWorking } from './physics/time-weighted-exposure.ts'
import { gasCycleWorking } from './gas/gas-cycle.ts'
import { bernoulliCusumArlWorking } from './statistics/bernoulli-cusum-arl.ts'
import { bernoulliCusumArlAtWorking } from './statistics/bernoulli-cusum-arl-at.ts'
import { bernoulliCusumDesignWorking } from './statistics/bernoulli-cusum-design.ts'
import { bernoulliCusumLatticeArlWorking } from './statistics/bernoulli-cusum-lattice-arl.ts'
import { bernoulliCusumLatticeDesignWorking } from './statistics/bernoulli-cusum-lattice-design.ts'
import { bernoulliCusumLatticeSignalProbWorking } from './statistics/bernoulli-cusum-lattice-signal-prob.ts'
import { bernoulliCusumPathWorking } from './statistics/bernoulli-cusum-path.ts'
import { bernoulliCusumWeightsWorking } from './statistics/bernoulli-cusum-weights.ts'
import { bernoulliEwmaPathWorking } from './statistics/bernoulli-ewma-path.ts'
import { cusumInWordsWorking } from './statistics/cusum-in-words.ts'
import { expectedIndirectWorking } from './statistics/expected-indirect.ts'
import { gChartLimitsWorking } from './statistics/g-chart-limits.ts'
import { gChartLowerRuleArlWorking } from './statistics/g-chart-lower-rule-arl.ts'
import { gChartProbabilityLimitsWorking } from './statistics/g-chart-probability-limits.ts'
import { jeffreysCiWorking } from './statistics/jeffreys-ci.ts'
import { logisticPredictedRiskWorking } from './statistics/logistic-predicted-risk.ts'
import { nForZeroEventsToExcludeWorking } from './statistics/n-for-zero-events-to-exclude.ts'
import { normalCusumArlTwoSidedWorking } from './statistics/normal-cusum-arl-two-sided.ts'
import { normalEwmaArlWorking } from './statistics/normal-ewma-arl.ts'
import { oneSampleExactBinomialMinNWorking } from './statistics/one-sample-exact-binomial-min-n.ts'
import { oneSampleExactBinomialPowerWorking } from './statistics/one-sample-exact-binomial-power.ts'
import { pChartAndLaneyWorking } from './statistics/p-chart-and-laney.ts'
import { percentile75Working } from './statistics/percentile75.ts'
import { poissonCusumArlWorking } from './statistics/poisson-cusum-arl.ts'
import { poissonSirPowerWorking } from './statistics/poisson-sir-power.ts'
import { propCiClopperPearsonWorking } from './statistics/prop-ci-clopper-pearson.ts'
import { propCiMidpWorking } from './statistics/prop-ci-midp.ts'
import { propCiWilsonWorking } from './statistics/prop-ci-wilson.ts'
import { rateBoundsByFollowUpWorking } from './statistics/rate-bounds-by-follow-up.ts'
import { raCusumArlWorking } from './statistics/ra-cusum-arl.ts'
import { raCusumDesignWorking } from './statistics/ra-cusum-design.ts'
import { raCusumPathWorking } from './statistics/ra-cusum-path.ts'
import { raCusumWeightsWorking } from './statistics/ra-cusum-weights.ts'
import { riskIndexWorking } from './statistics/risk-index.ts'
import { riskIndexLaparoscopicWorking } from './statistics/risk-index-laparoscopic.ts'
import { ruleOfThreeWorking } from './statistics/rule-of-three.ts'
import { sampleSizeTwoProportionsWorking } from './statistics/sample-size-two-proportions.ts'
import { sirWorking } from './statistics/sir.ts'
import { sirCiByarWorking } from './statistics/sir-ci-byar.ts'
import { sirCiExactWorking } from './statistics/sir-ci-exact.ts'
import { sirCiMidpWorking } from './statistics/sir-ci-midp.ts'
import { sirCompareTwoMidpWorking } from './statistics/sir-compare-two-midp.ts'
import { sirPMidpTwoSidedWorking } from './statistics/sir-p-midp-two-sided.ts'
import { sirReportableWorking } from './statistics/sir-reportable.ts'
import { ssiInWindowWorking } from './statistics/ssi-in-window.ts'
import { ssiWindowDaysWorking } from './statistics/ssi-window-days.ts'
import { ssiWindowLastDayWorking } from './statistics/ssi-window-last-day.ts'
import { tChartLimitsWorking } from './statistics/t-chart-limits.ts'
import { uChartLimitsWorking } from './statistics/u-chart-limits.ts'
import { vladPathWorking } from './statistics/vlad-path.ts'
import { zeroEventUpper95OneSidedWorking } from './statistics/zero-event-upper-95-one-sided.ts'
import { steamCycleWorking } from './steam/steam-cycle.ts'
import { scanLlrPoissonWorking } from './statistics/scan-llr-poisson.ts'
import { scanLlrBernoulliWorking } from './statistics/scan-llr-bernoulli.ts'
import { temporalScanBernoulliExactWorking } from './statistics/temporal-scan-bernoulli-exact.ts'
import { temporalScanBernoulliMcWorking } from './statistics/temporal-scan-bernoulli-mc.ts'
import { temporalScanPoissonMcWorking } from './statistics/temporal-scan-poisson-mc.ts'
import { spaceTimeScanWorking } from './statistics/space-time-scan-bernoulli-mc.ts'
import { scanContinuousAllInWindowWorking } from './statistics/scan-continuous-all-in-window.ts'
import { scanContinuousWallensteinNeffWorking } from './statistics/scan-continuous-wallenstein-neff.ts'
import { scanPoissonNausWorking } from './statistics/scan-poisson-naus.ts'
import { scanDiscreteBernoulliWorking } from './statistics/scan-discrete-bernoulli.ts'
import { scanDiscretePairConditionalWorking } from './statistics/scan-discrete-pair-conditional.ts'
import { twoByTwoExactWorking } from './statistics/two-by-two-exact.ts'
import { riskRatioKatzWorking } from './statistics/risk-ratio-katz.ts'
import { hypergeomAllShareWorking } from './statistics/hypergeom-all-share.ts'
import { maxInfectionsInAnyLoadWorking } from './statistics/max-infections-in-any-load.ts'
import { cmhExactWorking } from './statistics/cmh-exact.ts'
import { mantelHaenszelWorking } from './statistics/mantel-haenszel-or-and-chisq.ts'
import { mcnemarExactWorking } from './statistics/mcnemar-exact.ts'
import { firthLogisticWorking } from './statistics/firth-logistic.ts'
import { logisticMlWorking } from './statistics/logistic-ml.ts'
import { pAdjustBhWorking } from './statistics/p-adjust-bh.ts'
import { pAdjustHolmWorking } from './statistics/p-adjust-holm.ts'
import { attackRateTableWorking } from './statistics/attack-rate-table.ts'
import { westfallYoungMinpExactWorking } from './statistics/westfall-young-minp-exact.ts'
import { westfallYoungMinpWorking } from './statistics/westfall-young-minp.ts'
import { biBayesWorking } from './statistics/bi-bayes.ts'
import { retroIntervalWorking } from './statistics/retro-interval-uniform-onset.ts'
import { recallExpectedInfectionsWorking } from './statistics/recall-expected-infections.ts'
import { betaBinomialFailureRateWorking } from './statistics/beta-binomial-failure-rate.ts'
import { survivorProbabilityWorking } from './statistics/survivor-probability.ts'
import { betaBinomialLogBayesFactorWorking } from './statistics/beta-binomial-log-bayes-factor.ts'
import { exposureRankingWorking } from './statistics/exposure-ranking/exposure-ranking.ts'
import { costPerUseWorking } from './cost/cost-per-use.ts'
import { costWhatIfWorking } from './cost/cost-what-if.ts'
import { planDayWorking } from './planning/plan-day-working.ts'
import { washerCycleWorking } from './washer/washer-cycle.ts'
import type { Working } from './working.ts'

/** Every working there is, in the order in which lists and pages show them: by subject, plain before derived. */
export const workings: readonly Working[] = Object.freeze([
  // Steam
  saturationPressureWorking,
  saturationTemperatureWorking,
  gaugePressureWorking,
  standardAtmosphereWorking,
  superheatWorking,
  leakRateWorking,
  airRemovalWorking,
  // Logged cycles
  steamCycleWorking,
  washerCycleWorking,
  gasCycleWorking,
  // Lethality of moist heat
  lethalRateWorking,
  fValueWorking,
  dValueWorking,
  logReductionWorking,
  exposureForSurvivorsWorking,
  survivalKillWorking,
  fractionNegativeDWorking,
  // Washing and water
  a0Working,
  a0HoldTimeWorking,
  hardnessWorking,
  lumenVolumeWorking,
  flushTimeWorking,
  // Gas, baths and rooms
  eoLethalityWorking,
  eoAerationWorking,
  timeWeightedExposureWorking,
  bathLifeWorking,
  roomClearanceWorking,
  // Cases and risk
  ssiWindowLastDayWorking,
  ssiInWindowWorking,
  ssiWindowDaysWorking,
  riskIndexWorking,
  riskIndexLaparoscopicWorking,
  percentile75Working,
  logisticPredictedRiskWorking,
  // Observed and expected
  expectedIndirectWorking,
  sirWorking,
  sirCiMidpWorking,
  sirCiExactWorking,
  sirCiByarWorking,
  sirPMidpTwoSidedWorking,
  sirReportableWorking,
  sirCompareTwoMidpWorking,
  // Proportions and zero events
  propCiWilsonWorking,
  propCiClopperPearsonWorking,
  propCiMidpWorking,
  zeroEventUpper95OneSidedWorking,
  ruleOfThreeWorking,
  rateBoundsByFollowUpWorking,
  nForZeroEventsToExcludeWorking,
  jeffreysCiWorking,
  // Charts of rare events
  bernoulliCusumWeightsWorking,
  bernoulliCusumPathWorking,
  bernoulliCusumArlWorking,
  bernoulliCusumArlAtWorking,
  bernoulliCusumDesignWorking,
  cusumInWordsWorking,
  bernoulliCusumLatticeArlWorking,
  bernoulliCusumLatticeDesignWorking,
  bernoulliCusumLatticeSignalProbWorking,
  normalCusumArlTwoSidedWorking,
  normalEwmaArlWorking,
  poissonCusumArlWorking,
  raCusumWeightsWorking,
  raCusumPathWorking,
  vladPathWorking,
  raCusumArlWorking,
  raCusumDesignWorking,
  bernoulliEwmaPathWorking,
  gChartLimitsWorking,
  gChartProbabilityLimitsWorking,
  gChartLowerRuleArlWorking,
  tChartLimitsWorking,
  pChartAndLaneyWorking,
  uChartLimitsWorking,
  // Power
  sampleSizeTwoProportionsWorking,
  oneSampleExactBinomialPowerWorking,
  oneSampleExactBinomialMinNWorking,
  poissonSirPowerWorking,
  // Clusters
  scanLlrPoissonWorking,
  scanLlrBernoulliWorking,
  temporalScanBernoulliExactWorking,
  temporalScanBernoulliMcWorking,
  temporalScanPoissonMcWorking,
  spaceTimeScanWorking,
  scanContinuousAllInWindowWorking,
  scanContinuousWallensteinNeffWorking,
  scanPoissonNausWorking,
  scanDiscreteBernoulliWorking,
  scanDiscretePairConditionalWorking,
  // Exposures
  twoByTwoExactWorking,
  riskRatioKatzWorking,
  hypergeomAllShareWorking,
  maxInfectionsInAnyLoadWorking,
  cmhExactWorking,
  mantelHaenszelWorking,
  mcnemarExactWorking,
  firthLogisticWorking,
  logisticMlWorking,
  pAdjustBhWorking,
  pAdjustHolmWorking,
  attackRateTableWorking,
  westfallYoungMinpExactWorking,
  westfallYoungMinpWorking,
  exposureRankingWorking,
  // Recall
  biBayesWorking,
  retroIntervalWorking,
  recallExpectedInfectionsWorking,
  betaBinomialFailureRateWorking,
  survivorProbabilityWorking,
  betaBinomialLogBayesFactorWorking,
  // Planning
  planDayWorking,
  costPerUseWorking,
  costWhatIfWorking,
])

const byId = new Map(workings.map((working) => [working.id, working]))

/** The working of that id, or undefined. */
export function findWorking(id: string): Working | undefined {
  return byId.get(id)
}
