import { UNDO_WORDS } from "../../shared/wording/entry-change";
import { changeBetween, type Entered } from "../state/entry-history";
import type { PageProps } from "./view-props";

/** Takes back what was entered last, or puts it in again; each says what that is. Nothing stands here while nothing was entered. */
export function UndoButtons({ state, commands }: Pick<PageProps, "state" | "commands">) {
  const { history, takenBack } = state;
  const [before, after] = [history.earlier.at(-1), history.later.at(-1)];
  return (
    <div className="undo-row">
      {(before !== undefined || after !== undefined) && (
        <p className="button-row">
          <button type="button" disabled={before === undefined} onClick={commands.undo}>
            {UNDO_WORDS.undo}
            {sayWhich(state, before)}
          </button>
          <button type="button" disabled={after === undefined} onClick={commands.redo}>
            {UNDO_WORDS.redo}
            {sayWhich(state, after)}
          </button>
        </p>
      )}
      <p role="status" className="small">
        {takenBack === null ? "" : takenBack.way === "undo" ? UNDO_WORDS.undone(takenBack.change) : UNDO_WORDS.redone(takenBack.change)}
      </p>
    </div>
  );
}

function sayWhich(now: Entered, other: Entered | undefined): string {
  const change = other === undefined ? null : changeBetween(now, other);
  return change === null ? "" : UNDO_WORDS.which(change);
}
