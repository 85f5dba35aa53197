import { TermNote } from "../../parts/term-note";
import type { PageProps } from "../view-props";
import { KeptList } from "../visits/kept-list";
import { FilePicker } from "./file-picker";
import { useSampleFromAddress, useSampleVisit } from "./use-sample-visit";
import "./bring-in.css";

const MOST_VISITS = 5;

/** The empty page: says what will stand there, and takes files by dropping, picking or pasting. */
export function Start({ commands, kept, preferences }: PageProps) {
  const here = kept.visits.filter((visit) => visit.deletedAt === null).slice(0, MOST_VISITS);
  const sample = useSampleVisit(commands);
  useSampleFromAddress(sample.open);
  return (
    <section className="start" aria-labelledby="start">
      <h2 id="start">Bring in the log of a pumped water system</h2>
      <p>
        A pressure log is enough; flow, pump speed or motor current beside it show more. Any table a logger writes as text will do. The
        files stay on this device: nothing is sent anywhere.
      </p>
      <FilePicker onFiles={(files) => commands.bringIn(files)} />
      <p>
        <button type="button" onClick={sample.open}>
          Open the sample visit
        </button>{" "}
        <span className="soft">An invented site with three faults, to look around with.</span>
      </p>
      {sample.problem !== null && <p role="alert">{sample.problem}</p>}
      {here.length === 0 ? null : (
        <>
          <h3>Visits kept in this browser</h3>
          <KeptList kept={{ ...kept, visits: here }} locale={preferences.units.locale} />
        </>
      )}
      <h3>What will stand here</h3>
      <ol className="start-path">
        <li>The trace of every channel, with what was going on marked under it.</li>
        <li>
          What the log shows: starts and <TermNote id="short-cycle">short cycles</TermNote>,{" "}
          <TermNote id="oscillation">oscillation</TermNote>, <TermNote id="drift">drift</TermNote>,{" "}
          <TermNote id="leak-down">leak-down</TermNote>, the state of the tank; and what it cannot show.
        </li>
        <li>What is behind it, weighed, and what to check, change and bring on the next visit, with the amounts.</li>
      </ol>
    </section>
  );
}
