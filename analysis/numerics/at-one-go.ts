/** Goes through all steps without a rest. */
export function atOneGo<T>(steps: Generator<unknown, T>): T {
  let step = steps.next();
  while (step.done !== true) step = steps.next();
  return step.value;
}
