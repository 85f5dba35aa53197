/** Hands text or bytes to the person as a file. */
export function saveAsFile(name: string, type: string, content: string | Uint8Array<ArrayBuffer> | Blob): void {
  const address = URL.createObjectURL(content instanceof Blob ? content : new Blob([content], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = fileNameFrom(name);
  link.click();
  // Some browsers read the address only after the click has been handled.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** A name that every file system takes: what comes from a site's name or a heading may hold anything. */
export function fileNameFrom(name: string): string {
  const plain = name
    .normalize("NFKC")
    .replace(/[^\p{L}\p{N}._ -]+/gu, "-")
    .replace(/^[.\s-]+|[.\s]+$/g, "")
    .slice(0, 120);
  return plain === "" ? "evenhead" : plain;
}
