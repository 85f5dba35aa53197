import type { PageProps } from "../view-props";

/** The empty page: says what will stand there and takes files by picking or dropping. */
export function Start({ commands }: PageProps) {
  return (
    <section className="start" aria-label="Bring in a log">
      <h2>Bring in a log</h2>
      <p>Drop a CSV or text file from a data logger anywhere on this page, or pick one.</p>
      <input
        type="file"
        multiple
        aria-label="Log files"
        onChange={(event) => commands.bringIn([...(event.target.files ?? [])].map((file) => ({ name: file.name, blob: file })))}
      />
    </section>
  );
}
