/** A certainty between 0 and 1 in words, as the reader needs them: settled, worth a look, or to be decided. */
export function sayCertainty(certainty: number): string {
  if (!(certainty >= 0)) return "not known";
  if (certainty >= 0.95) return "sure";
  if (certainty >= 0.8) return "likely";
  if (certainty >= 0.5) return "please check";
  return "a guess";
}
