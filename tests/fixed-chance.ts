import fc from "fast-check";

/**
 * Property tests draw the same cases on every run, so that a failure means a change of ours and not of the dice.
 * PROPERTY_SEED=... draws others: npm run fuzz and a curious contributor use it.
 */
fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 20261125) });
