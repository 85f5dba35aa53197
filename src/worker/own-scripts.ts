import workerAddress from "./analysis.worker.ts?worker&url";
import type { WorkerPort } from "./analysis-client";

/** The part of the browser's trusted types that is used here; the compiler's page library does not know them yet. */
type TrustedTypes = {
  createPolicy(name: string, rules: { createScriptURL(address: string): string }): { createScriptURL(address: string): string };
};

const serviceWorkerAddress = (): string => new URL("service-worker.js", document.baseURI).href;

/** Starts the analysis worker. The page is served with a rule that no script is loaded from an address made up on the way; these two are allowed. */
export function startWorker(): WorkerPort {
  return new Worker(trusted(workerAddress), { type: "module" });
}

/** Lets the browser keep the page, so that it opens without a network. Where it will not, the page works as before. */
export async function keepPageOffline(): Promise<void> {
  if (!("serviceWorker" in navigator) || !isSecureContext) return;
  try {
    await navigator.serviceWorker.register(trusted(serviceWorkerAddress()), { scope: "./" });
  } catch {
    // Refused (private window, storage full): nothing is lost but the offline copy.
  }
}

function trusted(address: string): string {
  const types = (globalThis as { trustedTypes?: TrustedTypes }).trustedTypes;
  if (types === undefined) return address;
  policy ??= types.createPolicy("evenhead", {
    createScriptURL(asked) {
      if (asked !== workerAddress && asked !== serviceWorkerAddress()) throw new TypeError(`not a script of this page: ${asked}`);
      return asked;
    },
  });
  return policy.createScriptURL(address);
}

let policy: ReturnType<TrustedTypes["createPolicy"]> | undefined;
