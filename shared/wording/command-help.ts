import { CHANGE_KINDS } from "../findings/what-if";

/** What `--help` says of each command. */
export const COMMAND_HELP = {
  analyse: `analyse FILE... [options]     read one record from its files and print what it shows
  --site SITE.json            site facts (set pressure, tank, pump, limits)
  --limits LIMITS.json        limits of the company, where the site gives none (the page writes such a file)
  --json                      print the findings document instead of a summary
  --each                      every file is a record of its own; one JSON line each
  --each FOLDER --out FOLDER  all logs of a folder, on all cores; may be interrupted and called again
  --record OUT.csv            also write the record as it was read, in SI
  --events OUT.csv            also write all events (runs, short runs, oscillations, drifts, log faults), one a row, in SI
  --predict                   fit a model to the log and say what each change would do here; takes some seconds more
  --answer ID=VALUE           answer a question, e.g. --answer date-order=dmy
  --column "HEADING=role:unit"  say what a column is
  --units us|metric           units of the summary (default: as in the file)
  --out FILE                  write to FILE instead of standard output
Exit code: 0 analysed, 2 wrong usage, 3 a file could not be read as a log,
  4 a file could not be written.`,
  report: (sections: readonly string[]) => `report LOG.csv... --out REPORT.html [options]     write a report as one HTML file
report VISIT.evenhead.json --out REPORT.html [options]     the same of a visit that the page saved with its log
  --site SITE.json         site facts
  --before LOG.csv         an earlier log of the same site, to compare with (may be repeated for its parts)
  --before-site SITE.json  site facts of that visit, where they differ
  --limits LIMITS.json     limits of the company, where the site gives none
  --predict                fit a model to the log and say what each change would do here; takes some seconds more
  --done STEP              a step of the advice that was done; may be repeated
  --notes                  with what was ticked and noted on site
  --letterhead TEXT        a line of your own; may be repeated
  --logo PICTURE           PNG, JPEG or SVG
  --leave-out SECTION      ${sections.join(", ")}; may be repeated
  --paper A4|Letter        default A4
  --units us|metric        default: as in the file
  --date TEXT              date of the report as it should read`,
  "what-if": `what-if FILE... [options]     predict what a change would do at this site
  --site SITE.json       site facts
  --change "NAME=VALUE"  a change; may be given again. Names: ${Object.keys(CHANGE_KINDS).join(", ")}
                         e.g. "precharge=38 psi", "tank-volume=40 gal", "gain=0.5" (times what it is), "leak=0"
  --search               propose the smallest change that meets the acceptance limits
  --from, --to           stretch of the record: an instant (2026-03-02T19:00) or hours from its start (19.5)
  --trace OUT.csv        also write recorded, modelled and predicted pressure, Pa
  --units us|metric      units of the print (default: as in the file)
  --json                 print JSON, SI
Exit code: 0 predicted, 2 wrong usage, 3 a file could not be read as a log, or it shows too little to model.`,
  serve: `serve [--port N] [--sample] [--quiet]     serve the dashboard on this machine only
  --sample   open it on the sample visit
  --port N   default: any free port
  --quiet    print the address, open no browser`,
} as const;

/** What each command does, in the list of all. */
export const COMMANDS_IN_SHORT = {
  analyse: "read a log and print what it shows",
  report: "write a report as one HTML file",
  "what-if": "predict what a change would do",
  serve: "serve the dashboard on this machine only",
} as const;

export const COMMANDS_WORDS = {
  unknown: (name: string) => `There is no command "${name}".`,
  commands: "Commands:",
  more: "Add --help to a command for its options.",
} as const;
