import { useState } from "react";
import type { FileLayout } from "../../../shared/record/file-layout";
import { formatNumber } from "../../../shared/units/format-quantity";
import { FILE_HEAD_WORDS, REVIEW_WORDS } from "../../../shared/wording/bring-in";
import { sayFileForm, sayLineKind } from "../../../shared/wording/file-layout";

/** Data lines shown of a long run of them; the rest opens on demand. */
const FEW = 6;

/** The head of the file as the file has it, with what each line was taken for, by word and by the mark at its side. */
export function FileHead({ layout, locale }: { readonly layout: FileLayout; readonly locale: string | null }) {
  const [all, setAll] = useState(false);
  const shown = all ? layout.lines : shortened(layout.lines);
  const hidden = layout.lines.length - shown.length;
  return (
    <div className="file-head">
      <p>{sayFileForm(layout)}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by the keyboard */}
      <section className="wide-table" aria-label={REVIEW_WORDS.linesOfFile(layout.file)} tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">{FILE_HEAD_WORDS.line}</th>
              <th scope="col">{FILE_HEAD_WORDS.takenFor}</th>
              <th scope="col">{FILE_HEAD_WORDS.inFile}</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((line, i) => (
              <HeadLine key={line.line} line={line} locale={locale} skipped={i > 0 && line.line > shown[i - 1].line + 1} />
            ))}
          </tbody>
        </table>
      </section>
      {hidden === 0 ? null : (
        <button type="button" className="button-quiet" onClick={() => setAll(true)}>
          {FILE_HEAD_WORDS.showMore(hidden)}
        </button>
      )}
    </div>
  );
}

/** The lines with long runs of data cut short: what stands around them is what has to be judged. */
export function shortened(lines: FileLayout["lines"]): FileLayout["lines"] {
  return lines.filter((line, i) => {
    if (line.kind !== "data") return true;
    const before = lines.slice(Math.max(0, i - FEW), i);
    const isEarly = before.length < FEW || before.some((other) => other.kind !== "data");
    return isEarly || i >= lines.length - 2;
  });
}

type LineProps = { readonly line: FileLayout["lines"][number]; readonly skipped: boolean; readonly locale: string | null };

function HeadLine({ line, skipped, locale }: LineProps) {
  return (
    <>
      {skipped ? (
        <tr className="lines-left-out">
          <td colSpan={3}>{FILE_HEAD_WORDS.between}</td>
        </tr>
      ) : null}
      <tr data-kind={line.kind}>
        <td className="line-number">{formatNumber(line.line, 0, locale)}</td>
        <td className="line-kind">{sayLineKind(line.kind)}</td>
        <td className="line-text">
          <LineText text={line.text} cells={line.cells} />
        </td>
      </tr>
    </>
  );
}

/** Cells as the reader cut them; a line that was not cut stands as it is. Text nodes only: what a file says is never markup. */
function LineText({ text, cells }: { readonly text: string; readonly cells: readonly string[] | null }) {
  if (cells === null || cells.length < 2) return <bdi>{text}</bdi>;
  return cells.map((cell, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: cells have no name but their place
    <bdi key={i} className="line-cell">
      {cell}
    </bdi>
  ));
}
