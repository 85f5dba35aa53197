import workerAddress from "./analysis.worker.ts?worker&url";
import type { WorkerPort } from "./analysis-client";

/** The part of the browser's trusted types that is used here; the compiler's page library does not know them yet. */
type TrustedTypes = {
  createPolicy(name: string, rules: { createScriptURL(address: string): string }): { createScriptURL(address: string): string };
};

/** Starts the analysis worker. The page is served with a rule that no script is loaded from an address made up on the way; this is the one that is allowed. */
export function startWorker(): WorkerPort {
  return new Worker(trusted(workerAddress), { type: "module" });
}

function trusted(address: string): string {
  const types = (globalThis as { trustedTypes?: TrustedTypes }).trustedTypes;
  if (types === undefined) return address;
  policy ??= types.createPolicy("evenhead", {
    createScriptURL(asked) {
      if (asked !== workerAddress) throw new TypeError(`not a script of this page: ${asked}`);
      return asked;
    },
  });
  return policy.createScriptURL(address);
}

let policy: ReturnType<TrustedTypes["createPolicy"]> | undefined;
