import { refusedDocument } from "../../analysis/document/findings-document";
import type { VisitFile } from "../../shared/schemas/visit-file";

/** A small visit with every part filled in. */
export const visitFile = (parts: Partial<VisitFile> = {}): VisitFile => ({
  about: { id: "visit-1", title: "Hill Farm", saved: "2024-05-04T10:00:00.000Z", program: "0.1.0" },
  site: { setPressure: "52 psi", "limits.band": "3 psi" },
  choices: { answers: { "date-order": "dmy" }, columns: [{ heading: "Ch1", role: "pressure", unit: "bar" }], zone: "Europe/Lisbon" },
  checklist: { entries: [{ step: "check-precharge", done: true, note: "34 psi, gauge no. 2" }], notes: "Ask for the key at the farm." },
  findings: refusedDocument({ kind: "example", message: "an example of the form", file: null, row: null }),
  trace: {
    duration: 3600,
    channels: [{ heading: "Ch1", role: "pressure", quantity: "gaugePressure", low: [3.1e5, null], high: [3.4e5, null] }],
  },
  log: { files: [{ name: "log.csv", bytes: 3, sha256: null, content: "H4sI" }] },
  ...parts,
});
