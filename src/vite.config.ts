import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { fileListPlugin } from "./offline/file-list-plugin.ts";
import { policyPlugin } from "./page-policy.ts";

/** One configuration for the page, its worker and (with --ssr) the command line. */
export default defineConfig({
  root: import.meta.dirname,
  base: "./",
  plugins: [react(), fileListPlugin(), policyPlugin()],
  publicDir: false,
  worker: { format: "es" },
  build: { assetsInlineLimit: 0, outDir: "../dist/page", emptyOutDir: true, target: "es2023" },
  ssr: { noExternal: true },
  server: { host: "127.0.0.1", fs: { allow: [".."] } },
});
