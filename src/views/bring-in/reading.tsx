import { READING_WORDS } from "../../../shared/wording/bring-in";
import { sayCount, saySize, sayTimeLeft } from "../../../shared/wording/reading-progress";
import type { ReadingProgress } from "../../state/visit-state";
import type { PageProps } from "../view-props";
import { sayFileNames } from "./file-names";
import { GrowingTrace } from "./growing-trace";
import "./bring-in.css";

/** Progress of the job that runs, with rows, time left, and a way to stop it. */
export function Reading({ state, preferences, commands }: PageProps) {
  const { visit } = state;
  if (visit.stage !== "reading" && visit.stage !== "working-out") return null;
  const progress = visit.stage === "reading" ? visit.progress : null;
  const share = visit.stage === "reading" ? shareRead(progress) : null;
  const files = visit.stage === "reading" ? visit.files : visit.read.files;
  return (
    <section className="reading" aria-label={READING_WORDS.name}>
      <p className="reading-what">
        {visit.stage === "reading" ? READING_WORDS.reading : READING_WORDS.workingOut} <bdi>{sayFileNames(files)}</bdi>
      </p>
      <progress aria-label={READING_WORDS.share} max={1} value={share ?? undefined} />
      <p className="reading-figures">{sayFigures(progress, preferences.units.locale)}</p>
      {progress !== null && progress.sketch.length > 0 && <GrowingTrace sketch={progress.sketch} />}
      <p className="heard" role="status">
        {sayTenths(share)}
      </p>
      <button type="button" onClick={commands.stop}>
        {READING_WORDS.stop}
      </button>
    </section>
  );
}

/** A share of 1 as far as bytes tell it; null where the total is not known. */
const shareRead = (progress: ReadingProgress | null): number | null =>
  progress !== null && progress.totalBytes > 0 ? Math.min(1, progress.bytes / progress.totalBytes) : null;

function sayFigures(progress: ReadingProgress | null, locale: string | null): string {
  if (progress === null) return "";
  const figures = [
    sayCount(progress.rows, "row", "rows", locale),
    READING_WORDS.ofBytes(saySize(progress.bytes, locale), saySize(progress.totalBytes, locale)),
    ...(progress.secondsLeft === null ? [] : [sayTimeLeft(progress.secondsLeft)]),
  ];
  return figures.join(", ");
}

/** For readers who listen: once in a tenth, not with every chunk. */
const sayTenths = (share: number | null): string =>
  share === null ? READING_WORDS.working : READING_WORDS.percent(Math.floor(share * 10) * 10);
