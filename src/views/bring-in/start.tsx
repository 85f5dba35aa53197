import { START_WORDS } from "../../../shared/wording/bring-in";
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
      <h2 id="start">{START_WORDS.title}</h2>
      <p>{START_WORDS.about}</p>
      <FilePicker onFiles={(files) => commands.bringIn(files)} />
      <p className="button-row">
        <button type="button" onClick={sample.open}>
          {START_WORDS.sample}
        </button>
        <span className="soft">{START_WORDS.sampleIs}</span>
      </p>
      {sample.problem !== null && <p role="alert">{sample.problem}</p>}
      {here.length === 0 ? null : (
        <>
          <h3>{START_WORDS.kept}</h3>
          <KeptList kept={{ ...kept, visits: here }} locale={preferences.units.locale} />
        </>
      )}
      <h3>{START_WORDS.willStand}</h3>
      <ol className="start-path">
        <li>{START_WORDS.trace}</li>
        <li>
          {START_WORDS.findings[0]} <TermNote id="short-cycle">{START_WORDS.terms["short-cycle"]}</TermNote>,{" "}
          <TermNote id="oscillation">{START_WORDS.terms.oscillation}</TermNote>, <TermNote id="drift">{START_WORDS.terms.drift}</TermNote>,{" "}
          <TermNote id="leak-down">{START_WORDS.terms["leak-down"]}</TermNote>
          {START_WORDS.findings[1]}
        </li>
        <li>{START_WORDS.next}</li>
      </ol>
    </section>
  );
}
