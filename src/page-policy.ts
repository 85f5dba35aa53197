import type { Plugin } from "vite";

/** What the page may do: itself only, no inline script, no eval, nothing sent elsewhere, no text made script but the two addresses in `own-scripts`. */
export const PAGE_POLICY =
  "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'; trusted-types evenhead";

/** Writes the policy into the built page, first of all, so that it holds wherever the page is put, also where the server sends no headers. */
export function policyPlugin(): Plugin {
  return {
    name: "evenhead-page-policy",
    apply: "build",
    transformIndexHtml: () => [
      { tag: "meta", attrs: { "http-equiv": "Content-Security-Policy", content: PAGE_POLICY }, injectTo: "head-prepend" },
    ],
  };
}
