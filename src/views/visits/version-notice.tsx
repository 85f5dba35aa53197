import { VISITS_WORDS } from "../../../shared/wording/visits";
import type { PageProps } from "../view-props";

/** A visit that another version of this program saved: what it showed then, where that differs. */
export function VersionNotice({ kept }: Pick<PageProps, "kept">) {
  if (kept.difference.length === 0) return null;
  return (
    <section className="open-questions" aria-label={VISITS_WORDS.anotherVersion}>
      {kept.difference.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </section>
  );
}
