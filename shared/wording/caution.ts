import type { CautionId } from "../findings/advice";
import { PRACTICE } from "./source";

/** A caution as it stands beside its step, with the mark of where it comes from; `again` is what it asks for, where an earlier step said it in full. */
export type CautionWords = { readonly text: string; readonly again: string; readonly source: string };

const CAUTIONS: Readonly<Record<CautionId, CautionWords>> = {
  "local-codes-first": {
    text: "Local codes and the authority in charge come first.",
    again: "local codes first",
    source: PRACTICE,
  },
  "qualified-people": {
    text: "Electrical and plumbing work is for qualified, licensed people only.",
    again: "qualified people only",
    source: PRACTICE,
  },
  "isolate-power": {
    text: "Isolate the electrical supply, lock it out, tag it, and check that it is dead.",
    again: "supply locked out and checked dead",
    source: "OSHA 29 CFR 1910.147(d)",
  },
  "wait-for-stored-energy": {
    text: "A drive stays charged when it is switched off: wait the time marked on it, then measure.",
    again: "drive's waiting time over, then measured",
    source: "IEC/EN 60204-1 cl. 6.2.4",
  },
  "relieve-water-first": {
    text: "Drain the water side to no pressure before you touch the tank's air charge or open the line.",
    again: "water side drained",
    source: "OSHA 29 CFR 1910.147(d) for stored energy; general guidance on captive-air tanks",
  },
  "marked-pressure": {
    text: "Never exceed the working pressure marked on the tank; stop if the log or a gauge shows more.",
    again: "never above the tank's marked pressure",
    source: "Idaho IDAPA 58.01.08.547.01.d; marking on the tank",
  },
  frost: { text: "Put the sensor and its line where they cannot freeze.", again: "nothing where it can freeze", source: PRACTICE },
  "drinking-water": {
    text: "Keep drinking water clean: approved materials only, and disinfect, flush and test after the system was open.",
    again: "drinking water kept clean, disinfected, flushed and tested",
    source: "NSF/ANSI 61 as asked for by Utah R309-540-8; Loudoun County 1040.16",
  },
  "relief-valve-stays": {
    text: "The relief valve between pump and tank stays, with no shut-off valve in its path. Tanks have burst and killed.",
    again: "relief valve in place, its path open",
    source: "home-inspection encyclopaedia",
  },
  "equipment-instructions": {
    text: "The equipment's own instructions come before this.",
    again: "the equipment's instructions first",
    source: PRACTICE,
  },
  "rotating-parts": {
    text: "Keep clear of rotating parts; the pump may start by itself while it is not locked out.",
    again: "clear of rotating parts",
    source: "OSHA 29 CFR 1910.147(d)",
  },
};

/** A caution with its source mark, as one sentence. */
export const sayCaution = (id: CautionId): string => `${CAUTIONS[id].text} [${CAUTIONS[id].source}]`;
export const cautionWords = (id: CautionId): CautionWords => CAUTIONS[id];
