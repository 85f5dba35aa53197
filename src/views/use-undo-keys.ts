import { useEffect } from "react";
import type { Commands } from "../state/use-visit";
import { isTyping } from "./bring-in/picked-files";

/** The usual keys of undo, anywhere on the page but in a field of text, where they belong to the typing. */
export function useUndoKeys({ undo, redo }: Pick<Commands, "undo" | "redo">): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || isTyping(event.target)) return;
      const key = event.key.toLowerCase();
      if (key !== "z" && key !== "y") return;
      event.preventDefault();
      if (key === "y" || event.shiftKey) redo();
      else undo();
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  }, [undo, redo]);
}
