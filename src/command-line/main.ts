/** Runs the command line. @returns the exit code: 0 analysed, 2 wrong usage, 3 a file could not be read as a log */
export async function main(_args: readonly string[]): Promise<number> {
  console.error("not built yet");
  return 2;
}
