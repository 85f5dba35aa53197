/**
 * A log is worked through once, by hundreds of functions that each run for some milliseconds: half of the processor's time went into compiling them as if they
 * ran all day, or into loops not yet compiled. So the engine compiles late, joins few functions to one, and then compiles a long loop at the first sign and
 * before it goes on; it saves a fifth of the time of one log, and costs none where many follow.
 */
const COMPILE_LESS = [
  "--interrupt-budget=400000",
  "--max-inlined-bytecode-size-cumulative=400",
  "--ticks-before-optimization=1",
  "--no-concurrent-osr",
];

/**
 * Flags of the engine for one log. Only Node.js 20 is given any: later engines refuse two of them aloud, have a compiler between the two of that one, and
 * take twice the time with the last.
 * @param version Node.js's own, as in `process.versions.node`
 */
export const engineFlags = (version: string): readonly string[] => (/^20\./.test(version) ? COMPILE_LESS : []);
