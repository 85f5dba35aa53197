import { PASCAL_PER_PSI } from "../../../shared/units/pressure";
import { PRACTICE_SHARE_OF_MINUTE, PRECHARGE_BELOW_SET } from "../practice";
import { cutInOf, cutOutOf, found, isFixedSpeed, type Look, type Looks, levelFor, type Sight, setPressureOf } from "./sight";
import { gasConstantByStarts } from "./tank-by-starts";

const MINUTE = 60; // s
/** An interval wider than this ratio from end to end says nothing about the gas constant. */
const WIDEST_INTERVAL = 3;

/** 20 psi below set is within practice; a set pressure so low that 25 psi below is hardly anything has its edge higher. */
const lowEdgeBelow = (set: number) => Math.min(Math.max(25 * PASCAL_PER_PSI, 0.4 * set), Math.max(21 * PASCAL_PER_PSI, 0.55 * set));

/**
 * Where a charge stands against what it follows: set pressure with a drive (15 to 20 psi below it), cut-in with a pressure switch (about
 * 2 psi below it). Edges stand some psi outside the band, so that a gauge's error does not make a cause. Common practice, no source.
 */
export function chargeLevel(sight: Sight, charge: number): { level: "low" | "in-band" | "high"; reference: number } | null {
  if (isFixedSpeed(sight.site)) {
    const cutIn = cutInOf(sight);
    if (cutIn === null) return null;
    return { level: levelFor((cutIn - charge) / PASCAL_PER_PSI, [-1, 10], ["high", "in-band", "low"]), reference: cutIn };
  }
  const set = setPressureOf(sight);
  if (set === null) return null;
  return { level: levelFor(set - charge, [8 * PASCAL_PER_PSI, lowEdgeBelow(set)], ["high", "in-band", "low"]), reference: set };
}

const practiceVolume = ({ site }: Sight): number | null =>
  site.pumpRatedFlow === null ? null : PRACTICE_SHARE_OF_MINUTE * site.pumpRatedFlow.value * MINUTE;

/** Water that a pressure-switch tank of gas constant K gives between start and stop, against a minute of the pump's flow. */
function minutesOfFlow(sight: Sight, constant: number): number | null {
  const [cutIn, cutOut, rated] = [cutInOf(sight), cutOutOf(sight), sight.site.pumpRatedFlow?.value ?? null];
  if (cutIn === null || cutOut === null || rated === null || !(cutOut > cutIn)) return null;
  const air = sight.site.atmosphere.value;
  return (constant * (1 / (cutIn + air) - 1 / (cutOut + air))) / (rated * MINUTE);
}

const tankByFacts: Look<"tank-by-facts"> = (sight) => {
  const volume = sight.site.tankVolume?.value ?? null;
  if (volume === null) return null;
  const levels = ["tiny", "small", "ample"] as const;
  if (isFixedSpeed(sight.site)) {
    const cutIn = cutInOf(sight);
    const charge = sight.site.precharge?.value ?? (cutIn === null ? null : cutIn - 2 * PASCAL_PER_PSI);
    const minutes = charge === null ? null : minutesOfFlow(sight, volume * (charge + sight.site.atmosphere.value));
    return minutes === null ? null : { level: levelFor(minutes, [0.4, 0.85], levels), numbers: { volume, ratio: minutes } };
  }
  const practice = practiceVolume(sight);
  return practice === null ? null : { level: levelFor(volume / practice, [0.4, 0.85], levels), numbers: { volume, practice } };
};

/** The charge that practice gives a tank whose own was not read: the middle of 15 to 20 psi below set pressure, or 2 psi below cut-in. */
export function usualCharge(sight: Sight): number | null {
  if (isFixedSpeed(sight.site)) {
    const cutIn = cutInOf(sight);
    return cutIn === null ? null : cutIn - 2 * PASCAL_PER_PSI;
  }
  const set = setPressureOf(sight);
  return set === null ? null : set - (PRECHARGE_BELOW_SET.low + PRECHARGE_BELOW_SET.high) / 2;
}

/** Gas constant that the log shows, J: from metered draws at rest, else from the starts of a drive. Null where it is not known well enough. */
function gasAtWork(sight: Sight): { readonly value: number; readonly low: number; readonly high: number } | null {
  const constant = found(sight, "tank-charge")?.gasConstant ?? gasConstantByStarts(sight);
  return constant === null || !(constant.low > 0) || constant.high > WIDEST_INTERVAL * constant.low ? null : constant;
}

/**
 * What the tank should give, J: by the charge that was read where it suits the site, else by the usual one. A charge that was read low or high is no
 * measure of what the tank should give: a tank that works as that charge lets it is still short of gas.
 */
function expectedConstant(sight: Sight): { readonly value: number; readonly usual: number | null } | null {
  const { precharge, tankVolume, atmosphere } = sight.site;
  if (tankVolume === null) return null;
  const tank = found(sight, "tank-charge");
  const of = (charge: number) => tankVolume.value * (charge + atmosphere.value);
  const byRead = tank === null ? (precharge === null ? null : of(precharge.value)) : tank.expectedGasConstant;
  const suits = precharge === null || (chargeLevel(sight, precharge.value)?.level ?? "in-band") === "in-band";
  if (byRead !== null && suits) return { value: byRead, usual: null };
  const usual = usualCharge(sight);
  return usual === null ? null : { value: of(usual), usual };
}

/** Two standard deviations of what should be: a plate's volume to 5 %, a charge read to 2 psi of some 50 absolute, a meter to 2 %. Common practice, no source. */
const SURE_OF_FACTS = 0.87;

/** Of what the facts allow at least: less than that is no matter of a meter, a plate and a gauge that are all wrong the same way. */
const FAR_LESS = 0.8;

/** K at the lowest charge that still suits the site, as a share of K at the usual one; a switch's charge is one value. */
function leastOfBand(sight: Sight, usual: number): number {
  const set = setPressureOf(sight);
  if (isFixedSpeed(sight.site) || set === null) return 0.8;
  const air = sight.site.atmosphere.value;
  return (set - lowEdgeBelow(set) + air) / (usual + air);
}

const gasConstantByPractice: Look<"gas-constant-by-practice"> = (sight) => {
  const constant = gasAtWork(sight);
  if (constant === null) return null;
  const levels = ["tiny", "small", "enough"] as const;
  if (isFixedSpeed(sight.site)) {
    const minutes = minutesOfFlow(sight, constant.value);
    return minutes === null
      ? null
      : { level: levelFor(minutes, [0.3, 0.8], levels), numbers: { constant: constant.value, ratio: minutes } };
  }
  const [volume, set] = [practiceVolume(sight), setPressureOf(sight)];
  if (volume === null || set === null) return null;
  const practice = volume * (set - (PRECHARGE_BELOW_SET.low + PRECHARGE_BELOW_SET.high) / 2 + sight.site.atmosphere.value);
  const ratio = constant.value / practice;
  return { level: levelFor(ratio, [0.3, 0.8], levels), numbers: { constant: constant.value, practice, ratio } };
};

export const tankLooks: Pick<Looks, "tank-by-facts" | "precharge-by-facts" | "gas-constant" | "gas-constant-by-practice" | "empties-at"> = {
  "tank-by-facts": tankByFacts,
  "precharge-by-facts"(sight) {
    const charge = sight.site.precharge?.value ?? null;
    const seen = charge === null ? null : chargeLevel(sight, charge);
    return charge === null || seen === null ? null : { level: seen.level, numbers: { precharge: charge, reference: seen.reference } };
  },
  /**
   * Low charge and a water-logged tank part where the physics does: a charge that is all lost still leaves air of the atmosphere's
   * pressure, K = Vt times that. Less gas than that is no low charge any more.
   */
  "gas-constant"(sight) {
    const [constant, volume, should] = [gasAtWork(sight), sight.site.tankVolume?.value ?? null, expectedConstant(sight)];
    if (constant === null || volume === null || should === null) return null;
    const { value, low, high } = constant;
    const expected = should.value;
    const ratio = value / expected;
    const allLost = (volume * sight.site.atmosphere.value) / expected;
    const reduced = SURE_OF_FACTS * (should.usual === null ? 1 : leastOfBand(sight, should.usual));
    const raised = should.usual === null ? 1.3 : 1.5; // pipes give too; and a usual charge is known less well than one that was read
    // neither too little nor too much is shown while the interval reaches what should be
    if ((ratio < reduced && high >= reduced * expected) || (ratio >= raised && low < raised * expected)) return null;
    return {
      level: levelFor(
        ratio,
        [Math.min(0.9 * allLost, 0.6), FAR_LESS * reduced, reduced, raised],
        ["collapsed", "reduced", "lessened", "as-expected", "raised"],
      ),
      numbers: { constant: value, expected, ratio, ...(should.usual === null ? {} : { usual: should.usual }) },
    };
  },
  "gas-constant-by-practice": gasConstantByPractice,
  "empties-at"(sight) {
    const tank = found(sight, "tank-charge");
    const level = { low: "far-below", "in-band": "in-band", high: "near-set" } as const;
    if (tank?.emptiesAt != null) {
      const seen = chargeLevel(sight, tank.emptiesAt.value);
      return seen === null ? null : { level: level[seen.level], numbers: { emptiesAt: tank.emptiesAt.value, reference: seen.reference } };
    }
    if (tank?.emptiesBelow == null) return null;
    const seen = chargeLevel(sight, tank.emptiesBelow);
    if (seen?.level !== "low") return null; // an upper bound inside the band leaves the charge open
    return { level: "far-below", numbers: { emptiesAt: tank.emptiesBelow, reference: seen.reference } };
  },
};
