import { filesFrom } from "../../../shared/wording/file-name";
import type { PickedFile } from "../../worker/messages";

/** The files by name where there are few, else how many and the first. */
export function sayFileNames(files: readonly PickedFile[]): string {
  return files.length <= 3 ? files.map((file) => file.name).join(", ") : filesFrom(files.length, files[0].name);
}
