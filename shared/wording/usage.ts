/** How a value of a change is written, by the kind of quantity. */
const VALUES: ReadonlyMap<string, string> = new Map([
  ["gaugePressure", 'a pressure above the air, as "38 psi"'],
  ["volume", 'a volume, as "40 gal"'],
  ["length", 'a length, as "6 ft"'],
  ["time", 'a time, as "60 s"'],
  ["flow", 'a flow, as "0.2 gpm", or 0'],
  ["ratio", 'a ratio to what it is now, as "0.5" or "50 %"'],
]);

/** A wrong call of the command line: what was wrong and how to call it. */
export const USAGE = {
  noFile: "Name at least one file: analyse LOG.csv [--site SITE.json] [--json]",
  notWithEach: (option: string) => `--${option} writes one record; leave out --each.`,
  units: (text: string) => `--units is "us" or "metric", not "${text}".`,
  answer: (text: string) => `--answer "${text}" must read ID=VALUE, for example --answer date-order=dmy`,
  column: (text: string, roles: readonly string[]) => `--column "${text}" must read "HEADING=role:unit"; roles are ${roles.join(", ")}.`,
  eitherFilesOrFolder: "--each takes either files or one folder.",
  predictOneByOne: "--predict runs a model on each log; name the logs one by one.",
  noFolderForFindings: "A folder of logs needs a folder for the findings: --each FOLDER --out FOLDER",
  noReport: "Name a log and the file to write: report LOG.csv --out REPORT.html",
  visitAlone: "A visit file stands alone: it holds its own log.",
  visitHasFacts: "A visit file holds its own site facts and limits: leave --site and --limits out.",
  section: (id: string, known: readonly string[]) => `--leave-out ${id}: there is no such section. Sections: ${known.join(", ")}.`,
  step: (id: string, known: readonly string[]) => `--done ${id}: there is no such step. Steps: ${known.join(", ")}.`,
  paper: (text: string) => `--paper is A4 or Letter, not ${text}.`,
  logoKind: (path: string) => `--logo ${path} must be a PNG, JPEG or SVG picture.`,
  logoUnread: (path: string) => `--logo ${path} cannot be read.`,
  port: (text: string) => `--port ${text} is not a port number (0 to 65535).`,
  notBuilt: "The page is not built yet. Run: npm run build",
  noLogForChange: 'Name a log: what-if LOG.csv --site SITE.json --change "precharge=38 psi"',
  noChange: 'Say what to change (--change "precharge=38 psi"), or --search.',
  changeName: (text: string, known: string) => `--change "${text}": the names are ${known}.`,
  changeValue: (text: string, kind: string) => `--change "${text}": its value must be ${VALUES.get(kind) ?? "a number with its unit"}.`,
  changeForm: (text: string) => `--change "${text}" must read NAME=VALUE, for example "precharge=38 psi".`,
  span: "--from must lie before --to, and both within the record.",
  instant: (text: string) => `"${text}" is neither hours from the start nor an instant of this record.`,
} as const;

/** What a command that was called rightly cannot do. */
export const NOT_DONE = {
  nothingToFit: "This log has no pressure, or does not show when the pump ran: there is nothing to fit the model to.",
  notOverStretch: "The model cannot be run over this stretch: what was drawn is not known there. Log the flow, or the speed of the pump.",
  noLogs: (folder: string, endings: readonly string[]) => `${folder} holds no logs (${endings.join(", ")}).`,
  notWritten: (file: string, why: string) => `${file} could not be written (${why}). What stood under that name before is untouched.`,
} as const;

export const sayWritten = (file: string): string => `Written: ${file}`;

export const sayServed = (address: string): string => `Evenhead is at ${address}\nIt listens on this machine only. Stop it with Ctrl+C.`;

/** Why the system did not read a file, by its code (POSIX). */
export const NOT_READ: ReadonlyMap<unknown, string> = new Map([
  ["ENOENT", "there is no such file"],
  ["EISDIR", "it is a folder"],
  ["EACCES", "reading it is not permitted"],
]);

/** Why it did not write one. */
export const NOT_WRITTEN: ReadonlyMap<unknown, string> = new Map([
  ["ENOSPC", "the disk is full"],
  ["EDQUOT", "there is no room left for you on this disk"],
  ["EROFS", "the disk cannot be written to"],
  ["EACCES", "writing there is not permitted"],
  ["EPERM", "writing there is not permitted"],
  ["ENOENT", "there is no such folder"],
  ["ENOTDIR", "there is no such folder"],
  ["EISDIR", "it is a folder"],
  ["EIO", "the disk failed"],
]);
