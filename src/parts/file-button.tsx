import { useRef } from "react";

type Props = {
  readonly label: string;
  /** What the hidden field is called, for those who do not see the button. */
  readonly fieldLabel: string;
  readonly accept?: string;
  readonly multiple?: boolean;
  /** Asks for a folder, and gives all files in it. */
  readonly isFolder?: boolean;
  readonly className?: string;
  readonly onFiles: (files: readonly File[]) => void;
};

/** A button that asks for files. The same file can be picked twice in a row: a browser says nothing of a field that did not change. */
export function FileButton({ label, fieldLabel, accept, multiple = false, isFolder = false, className, onFiles }: Props) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className={className} onClick={() => input.current?.click()}>
        {label}
      </button>
      <input
        ref={input}
        type="file"
        hidden
        multiple={multiple}
        accept={accept}
        // In all browsers and in the HTML standard's drafts, not yet in React's types.
        {...(isFolder ? { webkitdirectory: "" } : {})}
        aria-label={fieldLabel}
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          event.target.value = "";
          if (files.length > 0) onFiles(files);
        }}
      />
    </>
  );
}
