import { setFlagsFromString } from "node:v8";
import { COMMANDS_IN_SHORT, COMMANDS_WORDS } from "../../shared/wording/command-help";
import { engineFlags } from "./compile-less";
import { forTerminal } from "./for-terminal";
import { UsageError } from "./options";
import { WriteError } from "./write-whole";

type Command = (args: readonly string[]) => Promise<number>;

/** Each command is loaded when it is called, so that --help answers at once. */
const COMMANDS: ReadonlyMap<string, Command> = new Map([
  ["analyse", async (args) => (await import("./analyse-command")).runAnalyse(args)],
  ["report", async (args) => (await import("./report-command")).runReport(args)],
  ["what-if", async (args) => (await import("./what-if")).runWhatIf(args)],
  ["serve", async (args) => (await import("./serve")).runServe(args)],
]);

/** Runs the command line. @returns the exit code: 0 done, 1 a defect, 2 wrong usage, 3 a file could not be read as a log, 4 a file could not be written */
export async function main(args: readonly string[]): Promise<number> {
  for (const flag of engineFlags(process.versions.node)) setFlagsFromString(flag);
  const [name, ...rest] = args;
  const command = COMMANDS.get(name ?? "");
  if (command === undefined) {
    const asked = name === undefined || name === "--help" || name === "-h";
    (asked ? console.log : console.error)(overview(asked ? null : name));
    return asked ? 0 : 2;
  }
  try {
    return await command(rest);
  } catch (error) {
    if (error instanceof UsageError) {
      console.error(error.message);
      return 2;
    }
    if (error instanceof WriteError) {
      console.error(forTerminal(error.message));
      return 4;
    }
    console.error(error instanceof Error ? error.stack : error);
    return 1;
  }
}

function overview(unknown: string | null): string {
  const lines = Object.entries(COMMANDS_IN_SHORT).map(([name, about]) => `  ${name.padEnd(10)} ${about}`);
  return [...(unknown === null ? [] : [COMMANDS_WORDS.unknown(unknown)]), COMMANDS_WORDS.commands, ...lines, COMMANDS_WORDS.more].join(
    "\n",
  );
}
